package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"maps"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// unitOrPart is how the name of a bare number says what it counts: it ends in a
// unit, or is a part of something or a plain count.
var unitOrPart = regexp.MustCompile(`(CM|MM|^[mM]|M|^g|G|KG|[tT]ex|H|Hours|Deg|^deg|^cm|CM2|CM3|M2|PerCM(OnLoom|Finished)?|PerInch|Ne|PerHour|PerThread|Percent|Seconds)$|` +
	`(Share|Loss|Yield|Noil|[cC]rimp|TakeUp|DrawIn|Shrink(Width|Length)?|[rR]egain(Now|Then)?|[cC]hance(Then)?|Fraction|Cover|Spread|Part)$`)

// without lists the bare numbers that may have no unit in their name, and why.
var without = map[string]string{
	"cloth.Stage.Kept":                    "the part of the stage before that is left, 0 to 1",
	"cloth.Spread.Mean":                   "of any figure whose spread it is, in that figure's unit",
	"cloth.Spread.SD":                     "of any figure whose spread it is, in that figure's unit",
	"cloth.Folded.count":                  "a yarn number in the count of its receiver or of the type beside it",
	"cloth.Tex.count":                     "a yarn number in the count of its receiver or of the type beside it",
	"cloth.Size.Count":                    "a yarn number in the count of its receiver or of the type beside it",
	"cloth.Hanging.ThreadsPerWeightOfAll": "threads on a weight, no unit",
	"cloth.Figure.Value":                  "the field Unit stands beside it",
	"hours.Task.Quantity":                 "the field Unit stands beside it",
	"cloth.SettRange.EndsLow":             "threads per cm, as the type says",
	"cloth.SettRange.EndsHigh":            "threads per cm, as the type says",
	"cloth.SettRange.PicksLow":            "threads per cm, as the type says",
	"cloth.SettRange.PicksHigh":           "threads per cm, as the type says",
	"cloth.MaxPicksPerCM.k":               "Ashenhurst's k, a number without unit",
	"cloth.DiametersPerCM.k":              "Ashenhurst's k, a number without unit",
	"cloth.MaxSettPerCM.k":                "Ashenhurst's k, a number without unit",
	"cloth.Kept.Centre":                   "of the logarithm of the part kept, no unit",
	"cloth.Kept.Scale":                    "of the logarithm of the part kept, no unit",
	"cloth.KeptOf.centre":                 "of the logarithm of the part kept, no unit",
	"cloth.Guess.SD":                      "of the logarithm of the part kept, no unit",
	"cloth.WorkingRange.Low":              "a part of the closest sett, 0 to 1",
	"cloth.WorkingRange.High":             "a part of the closest sett, 0 to 1",
	"hours.LargestShare.Now":              "the share of the slow tool, 0 to 1",
	"hours.Range.Low":                     "low, likely and high of any one thing, in its unit",
	"hours.Range.Likely":                  "low, likely and high of any one thing, in its unit",
	"hours.Range.High":                    "low, likely and high of any one thing, in its unit",
	"hours.One.v":                         "low, likely and high of any one thing, in its unit",
	"hours.Settings.CombedOuter":          "the share that is combed, 0 to 1",
	"hours.Settings.CombedInner":          "the share that is combed, 0 to 1",
	"hours.Settings.CombedWhole":          "the share that is combed, 0 to 1",
	"plan.ValueText.v":                    "of any field of the plan, in the unit of its key",
	"plan.FieldInfo.Min":                  "of any field of the plan, in the unit of its key",
	"plan.FieldInfo.Max":                  "of any field of the plan, in the unit of its key",
	"plan.Answer.Was":                     "of any field of the plan, in the unit of its key",
	"plan.Answer.Is":                      "of any field of the plan, in the unit of its key",
	"plan.AnswerField.Was":                "of any field of the plan, in the unit of its key",
	"plan.AnswerField.Is":                 "of any field of the plan, in the unit of its key",
	"plan.WebProgress.PicksLeft":          "picks, counted",
	"plan.ClothCheck.PlannedLength":       "a fraction lost, as planned",
	"plan.ClothCheck.PlannedWidth":        "a fraction lost, as planned",
	"plan.Worked.Quantity":                "in the unit of the task",
	"garment.Param.Default":               "in the unit that its key ends in",
	"garment.Param.Min":                   "in the unit that its key ends in",
	"garment.Param.Max":                   "in the unit that its key ends in",
	"garment.Choice.Value":                "in the unit that its key ends in",
	"garment.Check.v":                     "in the unit that its key ends in",
	"garment.Side.From":                   "parts of an edge, 0 to 1",
	"garment.Side.To":                     "parts of an edge, 0 to 1",
	"layout.Placement.X":                  "coordinates on the strip are cm, as in all of geometry",
	"layout.Placement.Y":                  "coordinates on the strip are cm, as in all of geometry",
	"layout.At.x":                         "coordinates on the strip are cm, as in all of geometry",
	"layout.LengthOf.x":                   "coordinates on the strip are cm, as in all of geometry",
}

// bareNumbers are the exported functions' parameters and the exported fields of
// type float64, as package.Function.parameter or package.Type.Field.
func bareNumbers(name string, files map[string]*ast.File) []string {
	var out []string
	add := func(owner string, list []*ast.Field, fields bool) {
		for _, f := range list {
			if id, ok := f.Type.(*ast.Ident); !ok || id.Name != "float64" {
				continue
			}
			for _, n := range f.Names {
				if !fields || n.IsExported() {
					out = append(out, name+"."+owner+"."+n.Name)
				}
			}
		}
	}
	for path, file := range files {
		if strings.HasSuffix(path, "_test.go") {
			continue
		}
		for _, decl := range file.Decls {
			switch d := decl.(type) {
			case *ast.FuncDecl:
				if d.Name.IsExported() {
					add(d.Name.Name, d.Type.Params.List, false)
				}
			case *ast.GenDecl:
				for _, spec := range d.Specs {
					if ts, ok := spec.(*ast.TypeSpec); ok && ts.Name.IsExported() {
						if st, ok := ts.Type.(*ast.StructType); ok {
							add(ts.Name.Name, st.Fields.List, true)
						}
					}
				}
			}
		}
	}
	return out
}

// unnamed are those whose last name says nothing of a unit.
func unnamed(all []string) []string {
	return slices.DeleteFunc(slices.Clone(all), func(s string) bool {
		return unitOrPart.MatchString(s[strings.LastIndexByte(s, '.')+1:])
	})
}

// A gram can be handed over for a metre only past a name that says otherwise.
func TestBareNumbersSayTheirUnit(t *testing.T) {
	var all []string
	for _, dir := range []string{"cloth", "hours", "plan", "garment", "layout"} {
		paths, err := filepath.Glob(filepath.Join(dir, "*.go"))
		if err != nil {
			t.Fatal(err)
		}
		files := map[string]*ast.File{}
		for _, path := range paths {
			if files[path], err = parser.ParseFile(token.NewFileSet(), path, nil, 0); err != nil {
				t.Fatal(err)
			}
		}
		all = append(all, bareNumbers(dir, files)...)
	}
	if len(all) < 300 {
		t.Errorf("only %d bare numbers were found: the source is not where it was", len(all))
	}
	bare := unnamed(all)
	for _, s := range bare {
		if without[s] == "" {
			t.Errorf("%s is a float64 whose name has no unit", s)
		}
	}
	for _, s := range slices.Sorted(maps.Keys(without)) {
		if !slices.Contains(bare, s) {
			t.Errorf("%s is excepted but is not there or has a unit now", s)
		}
	}
}

func TestBareNumbersWithoutAUnitAreSeen(t *testing.T) {
	const source = `package made
func Mass(length, tex float64, widthCM float64) float64 { return 0 }
type Skein struct { LengthM, Mass float64; hidden float64 }`
	file, err := parser.ParseFile(token.NewFileSet(), "made.go", source, 0)
	if err != nil {
		t.Fatal(err)
	}
	got := unnamed(bareNumbers("made", map[string]*ast.File{"made.go": file}))
	if want := []string{"made.Mass.length", "made.Skein.Mass"}; !slices.Equal(got, want) {
		t.Errorf("seen without a unit: %v, want %v", got, want)
	}
}
