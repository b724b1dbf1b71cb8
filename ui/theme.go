package ui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"ellwand/layout/drawing"
)

// palette is the colours of one variant, light or dark; those of the strip are
// the cutting diagram's. They are undyed wool (grounds, lines, greys) and of madder, weld, woad and walnut.
// Text on any ground has a contrast of at least 4.5 to 1, lines that matter 3.
type palette struct {
	ground, raised, field, button color.NRGBA // of window, headers, entries, buttons
	text, faint                   color.NRGBA // what is read; hints and units
	line, border                  color.NRGBA // between parts; round entries
	woad, onWoad                  color.NRGBA // what is chosen, and text on it
	madder, onMadder              color.NRGBA // what is wrong
	weld, onWeld                  color.NRGBA // what to mind
	green, onGreen                color.NRGBA // weld over woad: what is well
	marked                        color.NRGBA // selected text
	strip                         drawing.Colours
}

func rgb(hex uint32) color.NRGBA {
	return color.NRGBA{uint8(hex >> 16), uint8(hex >> 8), uint8(hex), 255}
}

func lightPalette() palette {
	return palette{
		ground: rgb(0xf3eee4), raised: rgb(0xe7decf), field: rgb(0xfcfaf5), button: rgb(0xe2d7c5),
		text: rgb(0x2a2520), faint: rgb(0x645a4e), line: rgb(0xcbbfac), border: rgb(0x857a6c),
		woad: rgb(0x2c5475), onWoad: rgb(0xfcfaf5), madder: rgb(0x9a2a22), onMadder: rgb(0xfcfaf5),
		weld: rgb(0x7d5200), onWeld: rgb(0xfcfaf5), green: rgb(0x3a5f30), onGreen: rgb(0xfcfaf5),
		marked: rgb(0xbfd2e0), strip: drawing.Palette(false),
	}
}

func darkPalette() palette {
	return palette{
		ground: rgb(0x23201c), raised: rgb(0x302b26), field: rgb(0x1a1815), button: rgb(0x423b34),
		text: rgb(0xefe8db), faint: rgb(0xb9ae9e), line: rgb(0x4b443b), border: rgb(0x948979),
		woad: rgb(0x93bbd8), onWoad: rgb(0x14202a), madder: rgb(0xf39a90), onMadder: rgb(0x2a0d0a),
		weld: rgb(0xe6bb52), onWeld: rgb(0x241a02), green: rgb(0xa6c78f), onGreen: rgb(0x14200d),
		marked: rgb(0x34506a), strip: drawing.Palette(true),
	}
}

// look is the window's theme. Variant, when not nil, overrides the system's.
type look struct {
	variant *fyne.ThemeVariant
}

// newLook follows the system unless wanted is "light" or "dark".
func newLook(wanted string) *look {
	l := &look{}
	switch wanted {
	case "light":
		v := theme.VariantLight
		l.variant = &v
	case "dark":
		v := theme.VariantDark
		l.variant = &v
	}
	return l
}

func (l *look) palette(v fyne.ThemeVariant) palette {
	if l.variant != nil {
		v = *l.variant
	}
	if v == theme.VariantDark {
		return darkPalette()
	}
	return lightPalette()
}

// Color implements fyne.Theme.
func (l *look) Color(name fyne.ThemeColorName, v fyne.ThemeVariant) color.Color {
	p := l.palette(v)
	switch name {
	case theme.ColorNameBackground, theme.ColorNameOverlayBackground, theme.ColorNameMenuBackground:
		return p.ground
	case theme.ColorNameHeaderBackground, theme.ColorNameDisabledButton:
		return p.raised
	case theme.ColorNameButton:
		return p.button
	case theme.ColorNameInputBackground:
		return p.field
	case theme.ColorNameInputBorder:
		return p.border
	case theme.ColorNameForeground:
		return p.text
	case theme.ColorNamePlaceHolder, theme.ColorNameDisabled:
		return p.faint
	case theme.ColorNameSeparator:
		return p.line
	case theme.ColorNameScrollBar:
		return p.border
	case theme.ColorNameScrollBarBackground:
		return p.raised
	case theme.ColorNamePrimary, theme.ColorNameHyperlink:
		return p.woad
	case theme.ColorNameForegroundOnPrimary:
		return p.onWoad
	case theme.ColorNameError:
		return p.madder
	case theme.ColorNameForegroundOnError:
		return p.onMadder
	case theme.ColorNameWarning:
		return p.weld
	case theme.ColorNameForegroundOnWarning:
		return p.onWeld
	case theme.ColorNameSuccess:
		return p.green
	case theme.ColorNameForegroundOnSuccess:
		return p.onGreen
	case theme.ColorNameSelection:
		return p.marked
	case theme.ColorNameHover:
		return translucent(p.woad, 0x22)
	case theme.ColorNamePressed:
		return translucent(p.woad, 0x44)
	case theme.ColorNameFocus:
		return translucent(p.woad, 0x66)
	case theme.ColorNameShadow:
		return translucent(rgb(0), 0x44)
	}
	return theme.DefaultTheme().Color(name, v)
}

func translucent(c color.NRGBA, alpha uint8) color.NRGBA {
	c.A = alpha
	return c
}

// Font implements fyne.Theme.
func (l *look) Font(s fyne.TextStyle) fyne.Resource { return theme.DefaultTheme().Font(s) }

// Icon implements fyne.Theme.
func (l *look) Icon(n fyne.ThemeIconName) fyne.Resource { return theme.DefaultTheme().Icon(n) }

// Size implements fyne.Theme: a little denser than usual, so that panel, strip
// and figures stand side by side on a small screen.
func (l *look) Size(n fyne.ThemeSizeName) float32 {
	switch n {
	case theme.SizeNameText:
		return 13
	case theme.SizeNameCaptionText:
		return 11
	case theme.SizeNameSubHeadingText:
		return 15
	case theme.SizeNameInnerPadding:
		return 6
	case theme.SizeNamePadding:
		return 4
	case theme.SizeNameInputRadius, theme.SizeNameSelectionRadius:
		return 3
	case theme.SizeNameScrollBar:
		return 12
	}
	return theme.DefaultTheme().Size(n)
}

// colours are those in use now, for what is drawn by hand.
func colours() palette {
	settings := fyne.CurrentApp().Settings()
	if l, ok := settings.Theme().(*look); ok {
		return l.palette(settings.ThemeVariant())
	}
	return newLook("").palette(settings.ThemeVariant())
}
