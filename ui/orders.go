package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// order is one command of the window. Menus, keys and the page of keys in Help
// are all made from the orders, so that none of them can lack one.
type order struct {
	text   string        // as the menu says it, a key of the catalogue
	file   string        // a file's name said instead; "" for none
	keys   fyne.Shortcut // wherever the focus is; nil for none
	letter fyne.KeyName  // on the strip; "" for none
	do     func()
	now    func() string // what the menu says at present; nil: always text
	can    func() bool   // whether it can be done now; nil: always. Its keys say why not.
	more   []order       // a menu of its own beside the item; nil for none
}

// orderMenu is one menu. Each has a file of its own, menu….go, where a command
// is one line.
type orderMenu struct {
	name   string
	orders []order
}

// line stands between groups of a menu.
func line() order { return order{} }

func (v *window) orderMenus() []orderMenu {
	return []orderMenu{
		{"Plan", v.planOrders()},
		{"Edit", v.editOrders()},
		{"Piece", v.pieceOrders()},
		{"Lay", v.layOrders()},
		{"Show", v.showOrders()},
		{"Help", v.helpOrders()},
	}
}

func ctrl(key fyne.KeyName, more ...fyne.KeyModifier) fyne.Shortcut {
	m := fyne.KeyModifierShortcutDefault
	for _, k := range more {
		m |= k
	}
	return &desktop.CustomShortcut{KeyName: key, Modifier: m}
}

// menu names every command with its keys; the keys work wherever the focus is.
func (v *window) menu() *fyne.MainMenu {
	v.named = nil
	main := fyne.NewMainMenu()
	for _, m := range v.orderMenus() {
		menu := fyne.NewMenu(words(m.name))
		for _, o := range m.orders {
			menu.Items = append(menu.Items, v.menuItem(o))
		}
		main.Items = append(main.Items, menu)
	}
	return main
}

func (v *window) menuItem(o order) *fyne.MenuItem {
	if o.more != nil {
		i := fyne.NewMenuItem(words(o.text), nil)
		i.ChildMenu = fyne.NewMenu(words(o.text))
		for _, below := range o.more {
			i.ChildMenu.Items = append(i.ChildMenu.Items, v.menuItem(below))
		}
		return i
	}
	if o.do == nil {
		return fyne.NewMenuItemSeparator()
	}
	text := words(o.text)
	if o.file != "" {
		text = o.file
	}
	i := fyne.NewMenuItem(text+o.keyWords(), func() { v.obey(o) })
	if o.keys != nil {
		i.Shortcut = unshown{o.keys}
	}
	i.IsQuit = o.text == "Quit"
	if o.can != nil {
		i.Disabled = !o.can()
		v.named = append(v.named, func() bool {
			was := i.Disabled
			i.Disabled = !o.can()
			return i.Disabled != was
		})
	}
	if o.now != nil {
		v.named = append(v.named, func() bool {
			was := i.Label
			i.Label = o.now() + o.keyWords()
			return i.Label != was
		})
	}
	return i
}

// unshown is a shortcut that the tool kit does not write beside the menu item: it
// would do so in letters too faint to read. The label names it.
type unshown struct{ fyne.Shortcut }

// keyWords is the order's key as a menu item names it: "  (Ctrl+L)".
func (o order) keyWords() string {
	switch {
	case o.keys != nil:
		return "  (" + keyName(o.keys) + ")"
	case o.letter != "":
		return "  (" + string(o.letter) + ")"
	}
	return ""
}

// obey does what an order says, unless a question waits for its answer.
func (v *window) obey(o order) {
	if v.typesInstead(o) {
		return
	}
	if v.Canvas().Overlays().Top() == nil {
		o.do()
	}
}

// typesInstead leaves a key that means something to an entry being typed in to
// that entry: the menu's keys would come first.
func (v *window) typesInstead(o order) bool {
	all, ok := o.keys.(*fyne.ShortcutSelectAll)
	if !ok {
		return false
	}
	switch e := v.Canvas().Focused().(type) {
	case *strip:
		return false
	case fyne.Shortcutable:
		e.TypedShortcut(all)
		return true
	}
	return false
}

// renameMenu brings what menu items say of the present, and whether they can be
// used, up to date.
func (v *window) renameMenu() {
	changed := false
	for _, name := range v.named {
		changed = name() || changed
	}
	if changed {
		v.MainMenu().Refresh()
	}
}

// keys are those that the menu cannot name: a second one for redo, the menus
// without a mouse, and the strip's letters when nothing has the focus.
func (v *window) keys() {
	v.Canvas().AddShortcut(ctrl(fyne.KeyZ, fyne.KeyModifierShift), func(fyne.Shortcut) { v.obey(order{do: v.b.redo}) })
	v.Canvas().AddShortcut(ctrl(fyne.KeyM), func(fyne.Shortcut) { v.openMenus() })
	v.Canvas().SetOnTypedKey(v.typed)
	v.strip.other = v.lettered
}

// typed is a key that no widget has taken: Escape shuts a question, Return takes
// what it offers, all others
// are the strip's when no question is open.
func (v *window) typed(e *fyne.KeyEvent) {
	top := v.Canvas().Overlays().Top()
	switch {
	case top == nil:
		v.strip.TypedKey(e)
	case e.Name == fyne.KeyEscape:
		top.Hide()
		v.accept = nil
	case (e.Name == fyne.KeyReturn || e.Name == fyne.KeyEnter) && v.accept != nil:
		v.accept()
	}
}

// lettered is a key that the strip has no use of its own for: the letter of an
// order, F1 for the page of keys, F10 for the menus.
func (v *window) lettered(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyF1:
		v.help()
		return
	case fyne.KeyF10:
		v.openMenus()
		return
	}
	for _, m := range v.orderMenus() {
		for _, o := range m.orders {
			if o.do != nil && o.letter == e.Name {
				v.obey(o)
			}
		}
	}
}

// openMenus shows all menus where the arrow keys and Enter work in them.
func (v *window) openMenus() {
	if v.Canvas().Overlays().Top() != nil {
		return
	}
	var all []*fyne.MenuItem
	for _, m := range v.MainMenu().Items {
		i := fyne.NewMenuItem(m.Label, nil)
		i.ChildMenu = fyne.NewMenu(m.Label, m.Items...)
		all = append(all, i)
	}
	menu := widget.NewPopUpMenu(fyne.NewMenu("", all...), v.Canvas())
	menu.ShowAtPosition(fyne.NewPos(8, 8))
	v.Canvas().Focus(menu)
	menu.ActivateNext()
}

// keyName is a shortcut as it stands on the keys.
func keyName(s fyne.Shortcut) string {
	c, ok := s.(fyne.KeyboardShortcut)
	if !ok {
		return ""
	}
	var parts []string
	for _, m := range []struct {
		bit  fyne.KeyModifier
		name string
	}{{fyne.KeyModifierControl, "Ctrl"}, {fyne.KeyModifierSuper, "Cmd"}, {fyne.KeyModifierAlt, "Alt"}, {fyne.KeyModifierShift, "Shift"}} {
		if c.Mod()&m.bit != 0 {
			parts = append(parts, words(m.name))
		}
	}
	return strings.Join(append(parts, string(c.Key())), "+")
}
