package packet

import (
	"bytes"
	"context"
	"encoding/csv"
	"fmt"
	"strings"
	"testing"

	"bowerwright/drawing"
	"bowerwright/job"
	"bowerwright/jobfile"
)

// stockedJob is cut from two lengths and what is on hand, spare parts and some
// for spoilt ones with it.
const stockedJob = `bowerwright: 1
name: Porch
unit: in
timber:
  pine:
    board: 1x4
    lengths: [8 ft at $4.49, 10 ft at $5.80]
    on hand:
      - 2 of 41 in
      - 60 in, unusable 20 in to 22 in
    spare parts: 1
    reject: 5 %
frames:
  house: {shape: house, width: 30, eaves: 33, ridge: 50}
  cell: {shape: hexagon, flats: 18}
layout:
  H1: house at 0, 0
  C1: cell at 60, 0
`

func planText(t testing.TB, text string) job.Result {
	t.Helper()
	spec, _, snags := jobfile.Read([]byte(text), "job.yaml", nil, "")
	if len(snags) > 0 {
		t.Fatal(snags)
	}
	r, snags, err := job.Plan(context.Background(), spec, job.BuiltIn())
	if err != nil || snags.Stops() {
		t.Fatal(err, snags)
	}
	return r
}

func stockedResults(t testing.TB) []job.Result {
	changes := strings.Replace(stockedJob, "unit: in\n", "unit: in\ncutting: fewest changes\n", 1)
	return []job.Result{planText(t, stockedJob), planText(t, changes)}
}

// TestStopsSayTheResult reads the papers of cutting by stop: every stop with its
// figure, the parts with their counts, the settings, the boards in their order.
func TestStopsSayTheResult(t *testing.T) {
	for _, r := range append(planned(t), stockedResults(t)...) {
		for _, tm := range r.Timber {
			for _, s := range tm.Stops {
				got := strings.Join(textsOf(stopBlocks(r, tm, s)...), " ")
				figure, _ := split(first(r.Job, s.Stop))
				want := []string{"stop " + itoa(s.Number), figure, second(r.Job, s.Stop)}
				for _, p := range s.Parts {
					want = append(want, itoa(p.Count)+" × "+p.Mark)
				}
				if s.SawSet > 0 {
					for _, a := range s.Settings {
						want = append(want, a.Text)
					}
				}
				for _, w := range want {
					if !strings.Contains(got, w) {
						t.Errorf("%s, stop %d: %q is missing in %q", r.Job.Name, s.Number, w, got)
					}
				}
			}
		}
	}
}

// TestTallyHasABoxForEveryPart, numbered on, behind the number of its board,
// which never ends a row.
func TestTallyHasABoxForEveryPart(t *testing.T) {
	for _, r := range append(planned(t), stockedResults(t)...) {
		for _, tm := range r.Timber {
			for _, s := range tm.Stops {
				boxes, n := tallyBoxes(s), 0
				off := map[int]int{}
				for i, b := range boxes {
					switch {
					case b.n == 0 && i%tallyRow == tallyRow-1:
						t.Errorf("board %d is named at the end of a row", b.board)
					case b.n > 0:
						if n++; b.n != n {
							t.Errorf("box %d is numbered %d", n, b.n)
						}
						off[b.board]++
					}
				}
				if n != s.Count {
					t.Errorf("%d boxes for %d parts", n, s.Count)
				}
				for _, b := range s.Boards {
					if off[b.Board] != b.Count {
						t.Errorf("%d boxes off board %d, it gives %d", off[b.Board], b.Board, b.Count)
					}
				}
				every := shapesOfBoxes(tally(s))
				if every != s.Count {
					t.Errorf("%d boxes are drawn for %d parts", every, s.Count)
				}
			}
		}
	}
}

// shapesOfBoxes counts the boxes that blocks draw.
func shapesOfBoxes(blocks []block) (n int) {
	for _, b := range blocks {
		var s sheet
		b.draw(&s, 0)
		n += len(shapesWith(drawing.PenEdge, s.items))
	}
	return n
}

// TestBoardsToTake: each stock with how many of it, on hand first; what is
// unusable; the cost.
func TestBoardsToTake(t *testing.T) {
	for _, r := range stockedResults(t) {
		tm := r.Timber[0]
		blocks := taking(r, tm)
		if len(blocks) != 2+len(tm.Stocks) {
			t.Fatalf("%d rows for %d stocks", len(blocks)-2, len(tm.Stocks))
		}
		for i, s := range tm.Stocks {
			got := textsOf(blocks[2+i])
			for _, w := range []string{itoa(s.Used), s.Name} {
				mustSay(t, got, w)
			}
			if s.Used > 0 && s.Cost != "" {
				mustSay(t, got, s.Cost)
			}
			if i > 0 && s.OnHand && !tm.Stocks[i-1].OnHand {
				t.Errorf("%s comes after what is bought", s.Name)
			}
		}
		all := strings.Join(textsOf(blocks...), " ")
		if !strings.Contains(all, "saw out from 19 1/2 in to 22 1/2 in") {
			t.Errorf("nothing is sawn out: %s", all)
		}
	}
}

// TestWaysStandBesideEachOther with boards, cost and settings as in the Result,
// and every aim with what is known.
func TestWaysStandBesideEachOther(t *testing.T) {
	for _, r := range append(planned(t), stockedResults(t)...) {
		for _, tm := range r.Timber {
			got := textsOf(waysTable(r, tm)...)
			all := strings.Join(got, " ")
			for _, w := range append(append([]job.WayFacts{}, tm.Ways...), *tm.Unturned) {
				mustSay(t, got, w.Name)
				for _, s := range []string{itoa(w.StopSettings), itoa(w.SawSettings), w.Cost} {
					if !strings.Contains(all, s) {
						t.Errorf("%s: %q is missing", w.Name, s)
					}
				}
			}
			for _, l := range []job.LevelFacts{tm.Levels.Cost, tm.Levels.Boards, tm.Levels.Offcut} {
				if !strings.Contains(all, l.Text) || !strings.Contains(all, sentence(l.Says)[:20]) {
					t.Errorf("%s, %s: not in %q", l.Text, l.Says, all)
				}
			}
		}
	}
}

// TestCardsOfRoughParts: a part that the way of cutting wants rough is sawn
// square on its card, and the card says how it is trimmed.
func TestCardsOfRoughParts(t *testing.T) {
	r := stockedResults(t)[0]
	tm := &r.Timber[0]
	k := r.Kinds[0]
	mark := k.Parts[1].Mark
	for i, s := range tm.Stops {
		if s.Has(mark) {
			tm.Stops[i].Rough, tm.Stops[i].Point = true, "square end"
		}
	}
	stop := k.Parts[1].Tip
	tm.Trims = []job.TrimFacts{{Setting: sampleAngle(45), Ends: []job.TrimEnd{{Mark: mark, End: "first", Count: 1}}},
		{Setting: sampleAngle(20), Ends: []job.TrimEnd{{Mark: mark, End: "second", Count: 1, Stop: &stop}}}}
	ts := tasks(r, k)
	got := strings.Join(textsOf(card(r, k, ts)...), " ")
	for _, w := range []string{"Then trim the first end at 45°, then the second end at 20° to the stop at " + both(r.Job, stop)} {
		if !strings.Contains(strings.ReplaceAll(got, "  ", " "), w) {
			t.Errorf("%q is missing in %q", w, got)
		}
	}
	trims := strings.Join(textsOf(trimBlocks(r, *tm)...), " ")
	for _, w := range []string{"45°", "20°", "1 × " + mark, "first end", "second end", first(r.Job, stop), "no stop"} {
		if !strings.Contains(trims, w) {
			t.Errorf("%q is missing in %q", w, trims)
		}
	}
}

// TestBoardsCSV has a row for every board, on hand first, with its parts.
func TestBoardsCSV(t *testing.T) {
	for _, r := range append(planned(t), stockedResults(t)...) {
		var b bytes.Buffer
		if err := BoardsCSV(&b, r); err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(&b).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		n := 0
		for _, tm := range r.Timber {
			for _, board := range tm.Boards {
				for _, number := range board.Numbers {
					n++
					row := rows[n]
					if row[0] != tm.Name || row[2] != itoa(number) || row[3] != board.Stock || row[8] != board.Summary || row[5] != fmt.Sprint(board.Length.MM) {
						t.Errorf("board %d: %q", number, row)
					}
					if len(strings.Fields(row[9])) != len(board.Parts) || row[6] != map[bool]string{true: "yes", false: "no"}[board.OnHand] {
						t.Errorf("board %d: %q", number, row)
					}
				}
			}
		}
		if len(rows) != n+1 || n != r.Timber[0].Buy+r.Timber[0].FromHand && len(r.Timber) == 1 {
			t.Errorf("%d rows for %d boards", len(rows)-1, n)
		}
	}
	if err := BoardsCSV(failing{}, stockedResults(t)[0]); err == nil {
		t.Error("a table that cannot be written is no error")
	}
}

// TestStockedPagesAreClean: the papers of cutting with several lengths, spans
// and spare parts.
func TestStockedPagesAreClean(t *testing.T) {
	for _, r := range stockedResults(t) {
		var b book
		b.flow(cuttingPaper(r))
		b.flow(stopsPaper(r))
		for _, p := range b.doc(r, made).Pages {
			for _, f := range faults(p) {
				t.Errorf("%s: %s", p.List.Title, f)
			}
		}
	}
}

// TestSpareIsToldApart: the cut list says how many parts are to use and how many
// are spare; the table for other programs too.
func TestSpareIsToldApart(t *testing.T) {
	r := stockedResults(t)[0]
	list := strings.Join(textsOf(cutList(r, r.Timber[0])...), " ")
	rows := cutRows(t, r)
	for _, w := range r.Timber[0].Parts {
		if w.Kind == "" {
			continue
		}
		if !strings.Contains(list, fmt.Sprintf("%d to use, %d spare", w.Need, w.Spare)) {
			t.Errorf("%+v is not in %q", w, list)
		}
		for _, row := range rows {
			if row[3] == w.Mark && (row[len(row)-1] != itoa(w.Saw) || row[4] != itoa(w.Need)) {
				t.Errorf("%+v reads %q", w, row)
			}
		}
	}
}
