package plan

import "slices"

// Log is what has really been done: skeins spun, cloth woven, the cloth as it
// came off the loom and as it was finished, and hours by task.
type Log struct {
	Skeins   []Skein
	Woven    []Woven
	Worked   []Worked
	OffLoom  MeasuredCloth // relaxed, unwashed; zero: not off the loom yet
	Finished MeasuredCloth // after wet finishing; zero: not finished yet
}

// Skein is yarn that is spun and ready for the loom.
type Skein struct {
	Date    string // "2026-03-07"; "": not said
	Yarn    string
	LengthM float64
	MassG   float64 // 0: not weighed
	Hours   float64 // spinning and plying; 0: not timed
	Tool    string  // "spindle", "wheel"; "": not said
}

// Woven is a stretch of cloth woven at one sitting.
type Woven struct {
	Date    string
	WovenCM float64 // under tension
	Picks   int     // 0: not counted
	Hours   float64 // 0: not timed
}

// Worked is hours at a task other than spinning and weaving, which stand with
// their skeins and their cloth.
type Worked struct {
	Date     string
	Task     string  // one of the words of WorkedTasks
	Of       string  // the yarn or the lot; "": all of them
	Hours    float64 // rest counted as the plan counts it: apart
	Quantity float64 // in the unit of the task's rate; 0: not measured
	Done     bool    // nothing of this task remains
}

// MeasuredCloth is cloth as it lies on the table; zero where not measured.
type MeasuredCloth struct{ WidthCM, LengthCM, MassG float64 }

// Measured says whether its width and length are known.
func (m MeasuredCloth) Measured() bool { return m.WidthCM > 0 && m.LengthCM > 0 }

// WorkedTasks are the tasks that hours can be put down for.
func WorkedTasks() []string {
	return []string{"sort", "scour", "comb", "card", "ply", "dye", "wind", "beam", "thread", "sley", "finish", "cut", "join", "fell", "hem", "other"}
}

// Empty says whether nothing has been put down yet.
func (l Log) Empty() bool {
	return len(l.Skeins)+len(l.Woven)+len(l.Worked) == 0 && l.OffLoom == MeasuredCloth{} && l.Finished == MeasuredCloth{}
}

func (l Log) clone() Log {
	l.Skeins, l.Woven, l.Worked = slices.Clone(l.Skeins), slices.Clone(l.Woven), slices.Clone(l.Worked)
	return l
}
