package garment

import (
	"fmt"
	"strings"
)

// didYouMean is " (did you mean "…"?)" for the known name nearest to the one
// given, or "" when none is near enough to be a slip.
func didYouMean(name string, known []string) string {
	best, least := "", max(2, len([]rune(name))/3)+1
	for _, k := range known {
		if d := lettersApart(name, k); d < least {
			best, least = k, d
		}
	}
	if best == "" {
		return "; accepted is " + list(known)
	}
	return fmt.Sprintf(" (did you mean %q?)", best)
}

// list is "a, b and c".
func list(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

// lettersApart is the Levenshtein distance in letters.
func lettersApart(a, b string) int {
	from, to := []rune(strings.ToLower(a)), []rune(strings.ToLower(b))
	row := make([]int, len(to)+1)
	for j := range row {
		row[j] = j
	}
	for i, r := range from {
		diagonal := row[0]
		row[0] = i + 1
		for j, s := range to {
			cost := diagonal
			if r != s {
				cost++
			}
			diagonal = row[j+1]
			row[j+1] = min(cost, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(to)]
}
