//go:build !race

package plan

// raceDetector says whether the tests run under the race detector.
const raceDetector = false
