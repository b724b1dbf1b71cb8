package plan

import (
	"gopkg.in/yaml.v3"

	"ellwand/cloth"
	"ellwand/garment"
	"ellwand/hours"
)

// Version is the plan file's version that this program writes.
const Version = 1

// blank is a plan in which every value is what a missing key means. Losses
// without a better value are 0: nothing is lost unless the plan says so.
func blank() *Plan {
	return &Plan{
		Version: Version, ShowUnits: "cm",
		Body:       garment.Body{CM: map[garment.Measure]float64{}},
		Params:     map[string]float64{},
		Allowances: garment.DefaultAllowances(),
		TwoFaced:   true,
		Hours:      hours.DefaultSettings(),

		FixedLosses: map[cloth.Loss]bool{}, Simulation: cloth.DefaultSimulation(),
	}
}

func blankYarn() cloth.Yarn { return cloth.Yarn{Plies: 1, Twist: "Z", Coat: cloth.CoatWhole} }

func blankFleece() cloth.Fleece {
	return cloth.UsualPlant(cloth.Fleece{Kind: cloth.LotFleece, ScouredYield: 1, OuterShare: 0.5, OuterYield: 1, InnerYield: 1, WholeYield: 1})
}

var (
	lengthCM = bounds{min: 0, max: 5000}
	widthCM  = bounds{min: 0, max: 500}
)

// section is a part of the file that is one mapping of simple keys.
type section struct {
	name string // "cloth"; "" for the top
	keys func(p *Plan) []key
}

// sections are the mappings of simple keys at the top of the file, in order.
func sections() []section {
	return []section{
		{"", topKeys}, {"body", bodyKeys}, {"allowances", allowanceKeys}, {"cutting", cuttingKeys},
		{"cloth", clothKeys}, {"simulation", simulationKeys}, {"loom", loomKeys},
	}
}

func topKeys(p *Plan) []key {
	return []key{
		textKey("title", "Title", &p.Title),
		wordKey("show_units", "Units shown", &p.ShowUnits, "cm", "inch"),
		unconfirmedKey(p),
	}
}

func bodyKeys(p *Plan) []key {
	keys := []key{
		textKey("name", "Name", &p.Body.Name),
		wordKey("table", "Survey for estimates", &p.Body.Table, "", "women", "men"),
	}
	for _, m := range garment.Measures() {
		keys = append(keys, mapKey(string(m.Key), m.Label, "cm", m.MinCM, m.MaxCM, p.Body.CM, m.Key))
	}
	return keys
}

func allowanceKeys(p *Plan) []key {
	a := &p.Allowances
	small := bounds{min: 0, max: 20}
	return []key{
		numberKey("seam_cm", "Seam", "cm", &a.SeamCM, small),
		numberKey("hem_cm", "Hem", "cm", &a.HemCM, small),
		numberKey("selvedge_edge_cm", "Edge on a selvedge", "cm", &a.SelvedgeEdgeCM, small),
		numberKey("max_tip_cm", "Longest tip past a gore's point", "cm", &a.MaxTipCM, small),
	}
}

func cuttingKeys(p *Plan) []key {
	return []key{numberKey("gap_cm", "Room for the shears", "cm", &p.GapCM, bounds{min: 0, max: 10})}
}

func clothKeys(p *Plan) []key {
	c := &p.Cloth
	if p.FixedLosses == nil {
		p.FixedLosses = map[cloth.Loss]bool{}
	}
	sett := bounds{min: 0, max: 100, above: true}
	return append([]key{
		textKey("weave", "Weave", &c.Weave),
		numberKey("finished_width_cm", "Finished width (0: the narrowest)", "cm", &c.FinishedWidthCM, widthCM),
		numberKey("repeat_cm", "Pattern repeats along (0: by the picks)", "cm", &p.RepeatCM, lengthCM),
		numberKey("repeat_across_cm", "Pattern repeats across (0: by the ends)", "cm", &p.RepeatAcrossCM, widthCM),
		mirrorKey("repeat_mirror_cm", "Middle of a band, along", &p.MirrorCM),
		mirrorKey("repeat_mirror_across_cm", "Middle of a stripe, across", &p.MirrorAcrossCM),
		need(textKey("warp", "Warp yarn", &p.WarpYarn)),
		need(textKey("weft", "Weft yarn", &p.WeftYarn)),
		need(numberKey("finished_ends_per_cm", "Ends per cm, finished", "", &c.FinishedEndsPerCM, sett)),
		need(numberKey("finished_picks_per_cm", "Picks per cm, finished", "", &c.FinishedPicksPerCM, sett)),
		yesNoKey("nap", "Nap runs one way", &p.Nap),
		yesNoKey("two_faced", "Two right faces", &p.TwoFaced),
		lossKey(cloth.LossTakeUp, "Take-up of the warp", c, p.FixedLosses),
		lossKey(cloth.LossDrawIn, "Draw-in", c, p.FixedLosses),
		lossKey(cloth.LossShrinkLength, "Shrinkage in length", c, p.FixedLosses),
		lossKey(cloth.LossShrinkWidth, "Shrinkage in width", c, p.FixedLosses),
		numberKey("weft_crimp", "Weft crimp allowance", "", &c.WeftCrimp, fraction),
		numberKey("weft_turn_cm", "Weft for each turn", "cm", &c.WeftTurnCM, bounds{min: 0, max: 20}),
		integerKey("selvedge_extra_ends", "Extra ends at the selvedges", &c.SelvedgeExtraEnds, 0, 200),
		integersKey("dent_order", "Ends in successive dents", &c.DentOrder, 0, 20),
		numberKey("reed_dents_per_10cm", "Reed (0: the nearest owned)", "dents per 10 cm", &c.ReedDentsPer10CM, bounds{min: 0, max: 500}),
		numberKey("sample_cm", "Samples, each warp", "cm", &c.SampleCM, lengthCM),
		numberKey("heading_cm", "Headings, each warp", "cm", &c.HeadingCM, lengthCM),
		integerKey("extra_dents", "Dents to spare", &c.ExtraDents, 0, 5000),
		numberKey("extra_length_cm", "Finished length to spare", "cm", &c.ExtraLengthCM, lengthCM),
	}, orderKeys(p)...)
}

// yarnKeys are the keys of one yarn; fibre is a mapping of its own below it.
func yarnKeys(y *cloth.Yarn) (own, fibre []key) {
	own = []key{
		need(textKey("name", "Name", &y.Name)),
		gristKey(y),
		integerKey("plies", "Plies", &y.Plies, 1, 20),
		wordKey("twist", "Twist", &y.Twist, "Z", "S"),
		numberKey("spin_loss", "Lost in spinning and handling", "", &y.SpinLoss, fraction),
		inHandKey(y),
		numberKey("regain", "Regain at which the grist holds (0: as the lot)", "", &y.Regain, regain),
	}
	own = append(own, threadKeys(y)...)
	fibre = []key{
		textKey("lot", "Lot", &y.Fleece),
		wordKey("coat", "Coat", &y.Coat, cloth.Coats()...),
	}
	return own, fibre
}

// fleeceKeys are the keys of one lot; lotBelow has all the mappings below it.
func fleeceKeys(f *cloth.Fleece) (own, combYield []key) {
	own = []key{
		need(textKey("name", "Name", &f.Name)),
		need(numberKey("raw_g", "Raw in hand", "g", &f.RawG, bounds{min: 0, max: 1e6})),
		numberKey("skirting_loss", "Skirting loss", "", &f.SkirtingLoss, fraction),
		numberKey("scoured_yield", "Scoured yield", "", &f.ScouredYield, yield),
		numberKey("separation_loss", "Lost in parting the coats", "", &f.SeparationLoss, fraction),
		numberKey("outer_share", "Share of outer coat", "", &f.OuterShare, bounds{min: 0, max: 1}),
	}
	own = append(own, lotKindKeys(f)...)
	combYield = []key{
		numberKey("outer", "Prepared from outer coat", "", &f.OuterYield, yield),
		numberKey("inner", "Prepared from inner coat", "", &f.InnerYield, yield),
		numberKey("whole", "Prepared from whole fleece", "", &f.WholeYield, yield),
	}
	return own, combYield
}

func choiceKeys(c *Choice) []key {
	return []key{
		need(textKey("component", "Component", &c.Component)),
		longTextKey("known", "What is known", &c.Known),
		textKey("kind_of_evidence", "Kind of evidence, in plain words", &c.Kind),
		longTextKey("evidence", "On what evidence", &c.Evidence),
		longTextKey("reference", "Reference: who, what, when", &c.Reference),
		textKey("page", "Page", &c.Page),
		longTextKey("done", "What will be done", &c.Done),
		longTextKey("why", "Why", &c.Why),
	}
}

// inHandKey is yarn already there; the key being there at all makes it a limit.
func inHandKey(y *cloth.Yarn) key {
	return unlessEmpty(numberKey("in_hand_m", "Yarn in hand (empty: to be spun)", "m", &y.InHandM, bounds{min: 0, max: 1e7}), &y.InHandM, &y.HaveInHand)
}

// unlessEmpty makes a number one that may be left empty; given says whether it is there.
func unlessEmpty(k key, value *float64, given *bool) key {
	read := k.read
	k.read = func(n *yaml.Node) string {
		if n.Kind == yaml.ScalarNode && n.Tag == "!!null" && n.Value == "" {
			*value, *given = 0, false
			return ""
		}
		wrong := read(n)
		*given = *given || wrong == ""
		return wrong
	}
	k.write = func() *yaml.Node {
		if !*given {
			return nil
		}
		return numberNode(*value)
	}
	return k
}
