package ui

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"

	"ellwand/settings"
)

// keeper keeps what outlives the window: the plans used of late, and a recovery
// file while there is unsaved work. All of it is by the way: what cannot be
// kept is said once, and stops nothing. A nil keeper keeps nothing.
type keeper struct {
	v        *window
	folders  settings.Folders
	recovery *settings.Recovery // nil until the first is needed
	wait     time.Duration      // from a change to the recovery file; 0 for none
	due      bool
	kept     bool // there is something in the recovery file
	said     bool
	recent   []string
}

// keepIn gives the window folders to keep things in.
func (v *window) keepIn(f settings.Folders, wait time.Duration) {
	v.keeper = &keeper{v: v, folders: f, wait: wait}
	v.keeper.readRecent()
}

// wrong says once that something cannot be kept.
func (k *keeper) wrong(err error) {
	if err != nil && !k.said {
		k.said = true
		k.v.say(sentence(err, ""), true)
	}
}

// changed keeps the plan a moment after a change, so that a row of changes is
// kept once.
func (k *keeper) changed() {
	if k == nil || k.wait == 0 || k.due {
		return
	}
	if !k.v.b.history.Dirty() {
		if k.kept {
			k.drop()
		}
		return
	}
	k.due = true
	k.v.b.spawn(func() {
		time.Sleep(k.wait)
		k.v.b.onWindow(k.keep)
	})
}

// keep writes the recovery file beside the window.
func (k *keeper) keep() {
	k.due = false
	if !k.v.b.history.Dirty() {
		return
	}
	write, err := k.writer()
	if err != nil {
		k.wrong(err)
		return
	}
	k.v.b.spawn(func() {
		err := write()
		k.v.b.onWindow(func() { k.wrong(err) })
	})
}

// keepNow is keep, done when it returns.
func (k *keeper) keepNow() error {
	write, err := k.writer()
	if err != nil {
		return err
	}
	return write()
}

// writer is what writes the plan as it stands to the recovery file, to be
// called on any goroutine.
func (k *keeper) writer() (func() error, error) {
	if k.recovery == nil {
		r, err := k.folders.NewRecovery()
		if err != nil {
			return nil, err
		}
		k.recovery = r
	}
	b, r, number := k.v.b, k.recovery, k.recovery.Ask()
	p, path, held := b.toSave(), b.path, b.held
	k.kept = true
	return func() error { return r.Keep(number, p, path, held) }, nil
}

// drop takes the recovery file away: the work is saved, or given up.
func (k *keeper) drop() {
	if k == nil || k.recovery == nil {
		return
	}
	k.kept = false
	k.wrong(k.recovery.Drop())
}

// close lets the recovery file go when the window is gone. With work in it that
// nobody gave up, it is offered at the next start.
func (k *keeper) close() {
	if k != nil && k.recovery != nil {
		k.recovery.Close() //nolint:errcheck // the program ends
	}
}

func (k *keeper) readRecent() {
	list, err := k.folders.Recent()
	k.wrong(err)
	k.recent = list
	k.v.SetMainMenu(k.v.menu())
}

// used puts a plan first among those used of late.
func (k *keeper) used(path string) {
	if k == nil {
		return
	}
	k.wrong(k.folders.Used(path))
	k.readRecent()
}

func (k *keeper) forget() {
	k.wrong(k.folders.ForgetRecent())
	k.readRecent()
}

// recentOrders is the menu of the plans used of late.
func (v *window) recentOrders() []order {
	if v.keeper == nil || len(v.keeper.recent) == 0 {
		return []order{{text: "No plan has been opened yet", do: func() {}}}
	}
	var all []order
	for _, path := range v.keeper.recent {
		all = append(all, order{text: "Open recent", file: fileWords(path, v.keeper.recent), do: func() {
			v.leaving("Leave", func() { v.load(path) })
		}})
	}
	return append(all, line(), order{text: "Forget these", do: v.keeper.forget})
}

// fileWords names a file shortly: with its folder where two of the list have
// the same name.
func fileWords(path string, list []string) string {
	name := filepath.Base(path)
	same := 0
	for _, p := range list {
		if filepath.Base(p) == name {
			same++
		}
	}
	if same > 1 {
		name += "  (" + filepath.Dir(path) + ")"
	}
	const most = 80
	if r := []rune(name); len(r) > most {
		name = string(r[:most-1]) + "…"
	}
	return shownName(name)
}

// shownName is a name from outside without what would break a line of text.
func shownName(name string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f {
			return '·'
		}
		return r
	}, name)
}

// dropped opens a plan that is dropped on the window.
func (v *window) dropped(what []fyne.URI) {
	if v.Canvas().Overlays().Top() != nil {
		return // a question waits for its answer
	}
	paths := []string{}
	for _, u := range what {
		if u.Scheme() == "file" {
			paths = append(paths, u.Path())
		}
	}
	if len(paths) != 1 {
		v.fault(fmt.Errorf(words("%d things were dropped on the window; accepted is one plan file at a time"), len(what)))
		return
	}
	path := filepath.FromSlash(paths[0])
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		v.fault(fmt.Errorf(words("%s is a folder; accepted is a plan file ending in %s"), path, strings.Join(planEndings(), " or ")))
		return
	}
	if !slices.Contains(planEndings(), strings.ToLower(filepath.Ext(path))) {
		v.fault(fmt.Errorf(words("%s ends in %q; accepted is a plan file ending in %s"), filepath.Base(path), filepath.Ext(path), strings.Join(planEndings(), " or ")))
		return
	}
	v.leaving("Leave", func() { v.load(path) })
}
