package drawing

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// A Piece is part of a text after its fractions are found. A fraction has
// Num and Den; other pieces have S.
type Piece struct {
	S        string
	Num, Den string
}

// fractionUnits are the words that, after a fraction, show that it is one.
var fractionUnits = []string{"in", "inch", "inches", "ft", "×"}

// Rich finds the fractions in plain text: in "10 3/8 in" the pieces are "10",
// 3 over 8, " in"; the space between a whole number and its fraction is dropped,
// as it is built closer.
//
// A fraction is one only when it can be nothing else: numerator below a
// denominator that tapes are divided by (2, 4 ... 64), standing alone, and
// either after a whole number and a space or before a unit of length. Dates
// ("3/8/2027", "on 3/8"), "7 of 15" and "page 1/2" stay as typed.
func Rich(s string) []Piece {
	var out []Piece
	rest := 0
	for i := 0; i < len(s); i++ {
		num, den, end, ok := fractionAt(s, i)
		if !ok {
			continue
		}
		before := s[rest:i]
		whole := wholeBefore(s[:i])
		if !whole && !unitAfter(s[end:]) {
			continue
		}
		if whole {
			before = strings.TrimRight(before, " \u00a0")
		}
		if before != "" {
			out = append(out, Piece{S: before})
		}
		out = append(out, Piece{Num: num, Den: den})
		i, rest = end-1, end
	}
	if rest < len(s) {
		out = append(out, Piece{S: s[rest:]})
	}
	return out
}

// fractionAt reads digits, a stroke and digits at i, alone on both sides.
func fractionAt(s string, i int) (num, den string, end int, ok bool) {
	if i > 0 && !strings.ContainsRune(" (-–−\u00a0", lastRune(s[:i])) {
		return "", "", 0, false
	}
	n := digits(s[i:])
	if n == 0 || n > 2 || i+n >= len(s) || s[i+n] != '/' {
		return "", "", 0, false
	}
	d := digits(s[i+n+1:])
	num, den, end = s[i:i+n], s[i+n+1:i+n+1+d], i+n+1+d
	if !onTape(num, den) || !endsAlone(s[end:]) {
		return "", "", 0, false
	}
	return num, den, end, true
}

func digits(s string) int {
	n := 0
	for n < len(s) && s[n] >= '0' && s[n] <= '9' {
		n++
	}
	return n
}

func lastRune(s string) rune {
	r, _ := utf8.DecodeLastRuneInString(s)
	return r
}

// onTape says whether num/den is a proper fraction of a divided inch.
func onTape(num, den string) bool {
	n, errN := strconv.Atoi(num)
	d, errD := strconv.Atoi(den)
	if errN != nil || errD != nil || n < 1 || n >= d {
		return false
	}
	return d == 2 || d == 4 || d == 8 || d == 16 || d == 32 || d == 64
}

// endsAlone says whether what follows cannot belong to the number.
func endsAlone(s string) bool {
	if s == "" {
		return true
	}
	if (s[0] == '.' || s[0] == ',') && digits(s[1:]) == 0 {
		return true
	}
	return strings.HasPrefix(s, "\u00a0") || strings.ContainsRune(" );:", rune(s[0]))
}

// wholeBefore says whether s ends in a whole number standing alone and one
// space.
func wholeBefore(s string) bool {
	t := strings.TrimSuffix(strings.TrimSuffix(s, " "), "\u00a0")
	if t == s {
		return false
	}
	i := len(t)
	for i > 0 && t[i-1] >= '0' && t[i-1] <= '9' {
		i--
	}
	return i < len(t) && (i == 0 || strings.ContainsRune(" (\u00a0", lastRune(t[:i])))
}

func unitAfter(s string) bool {
	s = strings.TrimLeft(s, " \u00a0")
	for _, u := range fractionUnits {
		if tail, ok := strings.CutPrefix(s, u); ok && (u == "×" || tail == "" || !isLetter(tail[0])) {
			return true
		}
	}
	return false
}

func isLetter(c byte) bool { return c|0x20 >= 'a' && c|0x20 <= 'z' }

// The shape of a built fraction, in parts of the size it stands in.
const (
	fractionScale = 0.7  // size of its figures
	fractionRise  = 0.42 // the numerator stands this much of a figure's size over the line
	fractionGap   = 0.14 // before it
	fractionTuck  = 0.03 // the stroke moves in on both sides
	// fractionLeastPt is the smallest figure of a fraction on paper, in pt.
	fractionLeastPt = 7.5
)

// A Run is letters of one font, size and tone at one height: X mm from the start
// of the line, Rise mm over the baseline.
type Run struct {
	S       string
	Font    Font
	Size    float64
	Tone    Tone
	X, Rise float64
	Width   float64
}

// runs lays the line out from its start and gives its width.
func (t Text) runs() ([]Run, float64) {
	t = t.whole()
	var out []Run
	x := 0.0
	for _, s := range t.Spans {
		pieces := []Piece{{S: s.S}}
		if !t.Plain {
			pieces = Rich(s.S)
		}
		for i, p := range pieces {
			afterFigure := i > 0 && endsInFigure(pieces[i-1].S)
			var rs []Run
			if p.Den == "" {
				rs, x = s.plain(p.S, x)
			} else {
				rs, x = s.built(p, x, afterFigure)
			}
			out = append(out, rs...)
		}
	}
	return out, x
}

func endsInFigure(s string) bool {
	return s != "" && s[len(s)-1] >= '0' && s[len(s)-1] <= '9'
}

func (s Span) plain(str string, x float64) ([]Run, float64) {
	str = strings.ReplaceAll(str, "\u00a0", " ") // on the page it has done its work, and it would be copied out
	w := plainWidth(str, s.Font, s.Size)
	return []Run{{S: str, Font: s.Font, Size: s.Size, Tone: s.Tone, X: x, Width: w}}, x + w
}

// built lays out a fraction: numerator raised, a stroke, denominator on the
// line. The gap is for a whole number before it; a space has its own, a minus or a
// bracket wants none.
func (s Span) built(p Piece, x float64, gap bool) ([]Run, float64) {
	em := s.Size * MMPerPt
	small := max(fractionScale*s.Size, min(s.Size, fractionLeastPt))
	if gap {
		x += fractionGap * em
	}
	var rs []Run
	put := func(str string, f Font, size, rise float64) {
		w := plainWidth(str, f, size)
		rs = append(rs, Run{S: str, Font: f, Size: size, Tone: s.Tone, X: x, Rise: rise, Width: w})
		x += w
	}
	put(p.Num, s.Font, small, fractionRise*small*MMPerPt)
	x -= fractionTuck * em
	put("\u2044", strokeFont(s.Font), s.Size, 0)
	x -= fractionTuck * em
	put(p.Den, s.Font, small, 0)
	return rs, x
}

// strokeFont is the font of a fraction's stroke: the lightest of its kind, as a
// heavy one runs into the figures.
func strokeFont(f Font) Font {
	if f == Mono || f == MonoBold {
		return Mono
	}
	return Regular
}
