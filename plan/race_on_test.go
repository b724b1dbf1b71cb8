//go:build race

package plan

// raceDetector says that the tests run under the race detector, which takes many
// times the time and the memory.
const raceDetector = true
