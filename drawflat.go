package main

import (
	"context"
	"fmt"
	"io"

	"ellwand/layout/drawing"
	"ellwand/paper"
	"ellwand/plan"
)

// drawFlat draws the garment laid flat, front and back, with the order of sewing.
func drawFlat(ctx context.Context, o options, env environment) error {
	write, err := drawing.FlatForFile(o.out)
	if err != nil {
		return fmt.Errorf("-o: %w", err)
	}
	paper, err := paper.Named(o.paper)
	if err != nil {
		return err
	}
	_, r, err := workOut(ctx, o, env, 0)
	if err != nil {
		return err
	}
	sheet := r.FlatSheet(env.now().Format("2006-01-02"))
	err = plan.WriteFile(o.out, func(w io.Writer) error {
		return write(w, sheet, drawing.Options{DPI: o.dpi, Paper: paper})
	})
	if err != nil {
		return err
	}
	fmt.Fprintf(env.out, "%s: %d views, %d steps of sewing\n", o.out, len(sheet.Views), len(sheet.Steps))
	return nil
}
