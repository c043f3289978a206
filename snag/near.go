package snag

import "strings"

// DidYouMean gives the candidate that word was most likely meant to be, or ""
// when none is near. Case does not count. Near is at most one slip of the
// finger (a letter too many, missing, wrong, or two swapped) in every three
// letters, and at least one; of words equally near the earlier candidate wins.
// Of a word of one letter nothing can be guessed.
func DidYouMean(word string, candidates []string) string {
	w := []rune(strings.ToLower(word))
	if len(w) < 2 {
		return ""
	}
	best, limit := "", max(1, len(w)/3)
	for _, c := range candidates {
		d := slips(w, []rune(strings.ToLower(c)))
		if d <= limit {
			best, limit = c, d-1
		}
	}
	return best
}

// slips counts the fewest insertions, deletions, substitutions and swaps of
// neighbours that turn a into b, no letter edited twice (optimal string
// alignment; F. J. Damerau, Communications of the ACM 7, 1964, names the four
// slips).
func slips(a, b []rune) int {
	before, last := make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row := make([]int, len(b)+1)
		row[0] = i
		for j := 1; j <= len(b); j++ {
			wrong := 1
			if a[i-1] == b[j-1] {
				wrong = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+wrong)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last = last, row
	}
	return last[len(b)]
}
