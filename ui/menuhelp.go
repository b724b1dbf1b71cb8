package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
)

// helpOrders is the menu of help.
func (v *window) helpOrders() []order {
	return []order{
		{text: "Keys and mouse", keys: ctrl(fyne.KeyH), do: v.help},
		{text: "About Ellwand", do: v.about},
	}
}

// help lists what the mouse does and the keys of every order.
func (v *window) help() {
	var b strings.Builder
	b.WriteString(words(mouseHelp))
	for _, m := range v.orderMenus() {
		var lines []string
		for _, o := range m.orders {
			keys := string(o.letter)
			if o.keys != nil {
				keys = keyName(o.keys)
			}
			if keys != "" {
				lines = append(lines, keys+": "+words(o.text))
			}
		}
		if len(lines) > 0 {
			b.WriteString("\n\n" + words(m.name) + "\n" + strings.Join(lines, "\n"))
		}
	}
	text := container.NewVScroll(newParagraph(b.String(), 600))
	text.SetMinSize(fyne.NewSize(630, 420))
	dialog.ShowCustom(words("Keys and mouse"), words("Close"), text, v)
}

const mouseHelp = `On the strip of cloth
Click picks a piece, with Shift one more; dragging moves what is picked; it snaps to selvedge, cut end and neighbours.
Dragging on bare cloth draws a band round pieces to pick. The wheel moves along the cloth, with Shift across it; the wheel with Ctrl zooms; the middle button pushes.
Arrow keys move by 0.1 cm, with Shift by 1 cm. Escape picks nothing.

In a form
Tab and Shift+Tab go from field to field. Enter or leaving the field takes the number; Escape takes back what was typed.
A wrong number says so under its field and stays out of the plan.

Everywhere
F10 or Ctrl+M opens the menus for the arrow keys, F1 this page. Ctrl+Shift+Z also redoes. Escape shuts a question.`
