package ui

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// chooser asks for a file: by typing its path or by clicking through folders.
// It never opens or makes the file itself, so that what is there stays whole
// until the new version is.
type chooser struct {
	title, action string
	endings       []string // lower case, with the dot; the first is added when none is given
	saving        bool
	chosen        func(path string)

	w       fyne.Window
	folder  string
	entry   *pathEntry
	list    *widget.List
	names   []string // folders end in a separator
	problem *widget.Label
	dialog  dialog.Dialog
}

// ask shows the chooser, starting at a path.
func (c *chooser) ask(w fyne.Window, path string) {
	c.w = w
	c.folder = filepath.Dir(path)
	c.entry = newPathEntry(func() { c.dialog.Hide() })
	c.entry.SetText(path)
	c.entry.OnSubmitted = func(string) { c.take() }
	c.problem = widget.NewLabel("")
	c.problem.Wrapping = fyne.TextWrapWord
	c.problem.Importance = widget.DangerImportance
	c.list = widget.NewList(
		func() int { return len(c.names) },
		func() fyne.CanvasObject {
			return container.NewHBox(widget.NewIcon(theme.FolderIcon()), widget.NewLabel(""))
		},
		func(i widget.ListItemID, o fyne.CanvasObject) {
			row, icon := o.(*fyne.Container), theme.FileIcon()
			if strings.HasSuffix(c.names[i], "/") {
				icon = theme.FolderIcon()
			}
			row.Objects[0].(*widget.Icon).SetResource(icon)
			row.Objects[1].(*widget.Label).SetText(c.names[i])
		})
	c.list.OnSelected = func(i widget.ListItemID) {
		c.list.Unselect(i)
		c.clicked(c.names[i])
	}
	c.read()
	ok := widget.NewButton(words(c.action), c.take)
	ok.Importance = widget.HighImportance
	cancel := widget.NewButton(words("Cancel"), func() { c.dialog.Hide() })
	top := container.NewBorder(nil, nil, widget.NewLabel(words("File")), nil, c.entry)
	foot := container.NewVBox(c.problem, container.NewBorder(nil, nil, nil, container.NewHBox(cancel, ok)))
	c.dialog = dialog.NewCustomWithoutButtons(words(c.title), container.NewBorder(top, foot, nil, nil, c.list), w)
	size := w.Canvas().Size()
	c.dialog.Resize(fyne.NewSize(min(760, size.Width-60), min(560, size.Height-60)))
	c.dialog.Show()
	w.Canvas().Focus(c.entry)
	c.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnd})
}

// read lists the folder.
func (c *chooser) read() {
	entries, err := os.ReadDir(c.folder)
	if err != nil {
		c.say(err)
	}
	c.names = []string{"../"}
	var files []string
	for _, e := range entries {
		name := e.Name()
		if strings.HasPrefix(name, ".") {
			continue
		}
		info, err := os.Stat(filepath.Join(c.folder, name))
		switch {
		case err != nil:
		case info.IsDir():
			c.names = append(c.names, name+"/")
		case slices.Contains(c.endings, strings.ToLower(filepath.Ext(name))):
			files = append(files, name)
		}
	}
	c.names = append(c.names, files...)
	c.list.Refresh()
	c.list.ScrollToTop()
}

func (c *chooser) clicked(name string) {
	path := filepath.Join(c.folder, name)
	if !strings.HasSuffix(name, "/") {
		c.entry.SetText(path)
		return
	}
	c.folder = path
	file := filepath.Base(c.entry.Text)
	if !c.saving {
		file = ""
	}
	c.entry.SetText(filepath.Join(path, file) + map[bool]string{true: "/"}[file == ""])
	c.say(nil)
	c.read()
}

func (c *chooser) say(err error) {
	if err == nil {
		c.problem.SetText("")
		return
	}
	c.problem.SetText("! " + sentence(err, ""))
}

// take accepts the path typed, or says why it cannot be taken.
func (c *chooser) take() {
	path, err := c.accepted(c.entry.Text)
	if err != nil {
		c.say(err)
		return
	}
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		c.folder = path
		c.read()
		return
	}
	if _, err := os.Stat(path); err == nil && c.saving {
		dialog.ShowConfirm(words("Overwrite?"), words("%s is there already. Write over it?", filepath.Base(path)), func(yes bool) {
			if yes {
				c.done(path)
			}
		}, c.w)
		return
	}
	c.done(path)
}

func (c *chooser) done(path string) {
	c.dialog.Hide()
	c.chosen(path)
}

func (c *chooser) accepted(path string) (string, error) {
	path = strings.TrimSpace(path)
	if path == "" {
		return "", errors.New(words("no file is named; type its path or click on one"))
	}
	if !filepath.IsAbs(path) {
		path = filepath.Join(c.folder, path)
	}
	info, err := os.Stat(path)
	if err == nil && info.IsDir() {
		return path, nil
	}
	if !c.saving {
		if err != nil {
			return "", fmt.Errorf(words("%s cannot be opened: %w"), path, err)
		}
		return path, nil
	}
	if filepath.Ext(path) == "" {
		path += c.endings[0]
	}
	if !slices.Contains(c.endings, strings.ToLower(filepath.Ext(path))) {
		return "", fmt.Errorf(words("%s ends in %q; accepted is %s"), filepath.Base(path), filepath.Ext(path), strings.Join(c.endings, " or "))
	}
	if info, err := os.Stat(filepath.Dir(path)); err != nil || !info.IsDir() {
		return "", fmt.Errorf(words("%s is no folder; accepted is one that is there"), filepath.Dir(path))
	}
	return path, nil
}

// pathEntry is an entry that Escape leaves.
type pathEntry struct {
	widget.Entry
	leave func()
}

func newPathEntry(leave func()) *pathEntry {
	e := &pathEntry{leave: leave}
	e.ExtendBaseWidget(e)
	return e
}

// TypedKey implements fyne.Focusable.
func (e *pathEntry) TypedKey(k *fyne.KeyEvent) {
	if k.Name == fyne.KeyEscape {
		e.leave()
		return
	}
	e.Entry.TypedKey(k)
}
