// Package plan is a whole making: the YAML file, its checks, its undo history,
// and the one function that works everything out from it. It is the only place
// where a garment meets a layout and a layout meets a cloth. It knows nothing
// of widgets.
package plan

import (
	"gopkg.in/yaml.v3"

	"ellwand/cloth"
	"ellwand/garment"
	"ellwand/hours"
	"ellwand/layout"
)

// Plan is what a plan file holds, version 1.
type Plan struct {
	Version    int
	Title      string
	ShowUnits  string // "cm" or "inch", for display only
	Body       garment.Body
	Draft      string             // "" when the plan has only its own pieces
	Params     map[string]float64 // ease, proportions and options of the draft
	Pieces     []PieceSpec        // overrides of drafted pieces and own pieces
	Seams      []SeamSpec         // own seams, and which drafted ones show
	Allowances garment.Allowances
	Cloth      cloth.Setting
	WarpYarn   string
	WeftYarn   string
	Nap        bool // nap runs one way: pieces are turned 0° only
	TwoFaced   bool // two right faces: pieces may be turned over
	GapCM      float64
	Loom       cloth.Loom
	Yarns      []cloth.Yarn
	Fleeces    []cloth.Fleece
	Dyes       []cloth.Dye // in the order of dyeing
	Hours      hours.Settings
	Choices    []Choice
	Log        Log
	Samples    []cloth.Sample
	// FixedLosses are those that the plan gives; the samples say the others.
	FixedLosses map[cloth.Loss]bool
	Simulation  cloth.Simulation
	Real        RealCloth
	Matches     []MatchSpec
	// RepeatCM and RepeatAcrossCM are after how much finished cloth its pattern
	// repeats; 0: as the orders of picks and ends have it.
	RepeatCM, RepeatAcrossCM float64
	// MirrorCM and MirrorAcrossCM are a place, from the first cut end and from
	// the left selvedge, about which the pattern is the same both ways; nil: as
	// the orders of picks and ends have it.
	MirrorCM, MirrorAcrossCM *float64
	Lay                      *SavedLay
	// Unconfirmed are the fields that hold a default nobody has confirmed yet.
	Unconfirmed []string

	// Newer is why the plan can only be looked at; nil for one that can be changed.
	Newer *NewerVersion
	// stamp is what the file held that the plan was read from.
	stamp Stamp
	// original is the file as an older program wrote it; nil for none.
	original *older

	// root is the file's tree as read, with its comments; nil for a plan made
	// otherwise. It is never changed: saving edits a copy.
	root *yaml.Node
	// spaced is the file's empty lines; never changed either.
	spaced spacing
}

// PieceSpec overrides a drafted piece of the same name, or adds an own piece.
type PieceSpec struct {
	Name        string
	Shape       string             // empty when it overrides a drafted piece
	Dims        map[string]float64 // "length_cm", "width_cm", …
	Points      [][2]float64       // for shape "polygon"
	EdgeNames   []string           // of a polygon's edges, from the first corner on; empty: "edge 1" and so on
	Copies      *int               // 0 leaves a drafted piece out
	Grain       garment.Grain      // empty: as drafted
	Finish      map[string]garment.Finish
	AllowanceCM map[string]float64 // by edge name
	// Piecing is whether it may be cut apart and seamed: "no" (or ""),
	// "if_needed", "if_it_saves" or "yes"; PiecingLine "along" or "across" it, ""
	// as serves; PiecingParts into how many parts, 0 for as few as serve;
	// PiecingShare where it is cut in two, 0 for halfway.
	Piecing, PiecingLine string
	PiecingParts         int
	PiecingShare         float64
}

// Choice is one component of the making, standing alone. There is no total.
// Evidence says in plain words what it rests on, Kind which kind of evidence
// that is ("a find", "an experiment"), Reference and Page where it is printed.
type Choice struct {
	Component, Known, Kind, Evidence, Reference, Page, Done, Why string
}

// SavedLay is the lay kept in the file, by item ID ("sleeve/1").
type SavedLay struct {
	WidthCM, LengthCM float64
	StartsCM          []float64 // where each length of cloth begins on the strip; empty when all is one
	Placements        []SavedPlacement
}

// SavedPlacement is one piece where it was left; a pinned one stays there.
type SavedPlacement struct {
	ID string
	layout.Placement
	Pinned bool
}
