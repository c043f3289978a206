package job

import (
	"context"
	"encoding/json"
	"fmt"
	"math/rand"
	"reflect"
	"slices"
	"strings"
	"testing"

	"bowerwright/snag"
	"bowerwright/unit"
)

// bareInput stands for the hash of the files that a job is read from.
const bareInput = "3f2ab1c4d5e6"

// again plans a list anew after some rounds, whose marks are filled in.
func again(t *testing.T, s CutSpec, rounds ...Round) Result {
	t.Helper()
	r, snags, err := Recut(context.Background(), s, BuiltIn(), bareInput, marked(rounds))
	if err != nil || snags.Stops() {
		t.Fatalf("%+v: %v %v", rounds, err, snags)
	}
	verified(t, r)
	return r
}

// marked fills in the marks of rounds.
func marked(rounds []Round) Progress {
	rounds = slices.Clone(rounds)
	for i := range rounds {
		rounds[i].Packet = PacketMark(ProgressSHA256(bareInput, rounds[:i]))
		rounds[i].Path = fmt.Sprintf("rounds[%d]", i)
	}
	return Progress{Rounds: rounds}
}

// verified demands that a process of its own would find nothing wrong.
func verified(t *testing.T, r Result) {
	t.Helper()
	verdicts, wrong := Verify(r)
	for _, v := range verdicts {
		wrong = append(wrong, v.Wrong...)
	}
	if len(wrong) > 0 {
		t.Fatalf("not what can be verified: %s", strings.Join(wrong, "\n"))
	}
}

// onBoards counts the parts on the boards of a result, by mark.
func onBoards(r Result) map[string]int {
	out := map[string]int{}
	for _, f := range r.Timber {
		for _, b := range f.Boards {
			for _, p := range b.Parts {
				out[p.Mark] += len(b.Numbers)
			}
		}
	}
	return out
}

func boardAt(t *testing.T, r Result, n int) BoardFacts {
	t.Helper()
	for _, b := range r.Timber[0].Boards {
		if slices.Contains(b.Numbers, n) {
			return b
		}
	}
	t.Fatalf("no board %d", n)
	return BoardFacts{}
}

// slats are parts with ends of three settings on boards of one length.
func slats(r *rand.Rand) CutSpec {
	s := CutSpec{Spec: Spec{Name: "Slats", Show: "us", Timber: []Timber{{Name: "pine", Nominal: "1x4", From: "job file",
		Lengths: []StockLength{{Length: 96 * inLong, PriceMinor: 449, Currency: "USD"}, {Length: 120 * inLong, PriceMinor: 580, Currency: "USD"}}}}}}
	if r.Intn(2) == 0 {
		s.Timber[0].OnHand = []HandBoard{{Count: 2, Length: 50 * inLong}, {Count: 1, Length: 90 * inLong, Spans: [][2]unit.Length{{40 * inLong, 42 * inLong}}}}
	}
	settings := []float64{0, 22.5, 30, -30}
	for i := range 3 {
		s.Parts = append(s.Parts, ListPart{Name: string(rune('a' + i)), Outside: unit.Length(640+r.Intn(1600)) * unit.Inch / 64, Flat: false,
			Left: unit.FromDegrees(settings[r.Intn(4)]), Right: unit.FromDegrees(settings[r.Intn(4)]), Count: 2 + r.Intn(9), Path: fmt.Sprintf("parts[%d]", i)})
	}
	return s
}

// Where nothing went wrong nothing more is bought: what is planned can go on.
// What is sawn and what is left make up the list, whatever happened.
func TestNothingWrongNothingMoreToBuy(t *testing.T) {
	r := rand.New(rand.NewSource(7))
	on := 0
	for range 40 {
		s := slats(r)
		first := cutOf(t, s)
		want := onBoards(first)
		var round Round
		sawn := map[string]int{}
		for _, b := range first.Timber[0].Boards {
			for _, n := range b.Numbers {
				k := r.Intn(len(b.Parts) + 2)
				told := Sawn{From: n, To: n, Parts: k, Path: "p"}
				switch {
				case k == 0:
					continue
				case k > len(b.Parts):
					k, told.Parts, told.Cut = len(b.Parts), 0, true
				}
				for _, p := range b.Parts[:k] {
					sawn[p.Mark]++
				}
				round.Boards = append(round.Boards, told)
			}
		}
		got := again(t, s, round)
		if f := got.Timber[0]; len(f.Ways) > 0 && f.Ways[0].Name == wayBefore {
			on++
			if len(f.Bench.Dropped) > 0 || slices.ContainsFunc(f.Boards, func(b BoardFacts) bool { return b.Changed }) {
				t.Fatalf("the plan goes on, and boards change: %+v", f.Bench)
			}
		}
		if got.Timber[0].Buy != 0 {
			t.Fatalf("%d boards more to buy, though nothing went wrong: %+v", got.Timber[0].Buy, round)
		}
		left := onBoards(got)
		for mark, n := range want {
			if sawn[mark]+left[mark] != n {
				t.Fatalf("%d of %s sawn and %d left of %d", sawn[mark], mark, left[mark], n)
			}
		}
	}
	if on < 25 { // in the others all is cut, or a board with knots is begun
		t.Errorf("the plan goes on in %d of 40 only", on)
	}
}

// Whatever happens at the bench, each part is there in the end, nothing is sawn
// twice, and no more boards are taken than there are.
func TestWhateverHappens(t *testing.T) {
	r := rand.New(rand.NewSource(8))
	more := 0
	for range 30 {
		s := slats(r)
		r0 := cutOf(t, s)
		want := onBoards(r0)
		var rounds []Round
		good := map[string]int{}
		now := r0
		for range 2 {
			var round Round
			sawn := map[string]int{}
			for _, b := range now.Timber[0].Boards {
				for _, n := range b.Numbers {
					told := Sawn{From: n, To: n, Path: "p"}
					k := 0
					switch r.Intn(6) {
					case 0:
						continue
					case 1:
						k, told.Cut = len(b.Parts), true
					case 2:
						k = 1 + r.Intn(len(b.Parts))
						told.Parts = k
					case 3:
						told.Rejected = true
					case 4:
						if len(b.Spans) > 0 {
							continue
						}
						told.Spans = [][2]unit.Length{{10 * inLong, 12 * inLong}}
						if b.Length.MM < 500 {
							continue
						}
					case 5:
						k = 1
						told.Parts, told.Rejected = 1, true
					}
					for _, p := range b.Parts[:k] {
						sawn[p.Mark]++
						good[p.Mark]++
					}
					round.Boards = append(round.Boards, told)
				}
			}
			for _, mark := range []string{"a", "b", "c"} {
				if n := sawn[mark]; n > 0 && r.Intn(2) == 0 {
					round.Spoilt = append(round.Spoilt, Spoilt{Mark: mark, Count: 1, Path: "p"})
					good[mark]--
				}
			}
			rounds = append(rounds, round)
			now = again(t, s, rounds...)
			left := onBoards(now)
			for mark, n := range want {
				if good[mark]+left[mark] != n {
					t.Fatalf("%d of %s are good and %d are left of %d", good[mark], mark, left[mark], n)
				}
			}
			more += now.Timber[0].Buy
		}
		if twice := again(t, s, rounds...); !reflect.DeepEqual(twice, now) {
			t.Fatal("the same rounds give another plan")
		}
	}
	if more == 0 {
		t.Error("nothing was ever bought: the test says little")
	}
}

func TestAllIsCut(t *testing.T) {
	s := shelves()
	first := cutOf(t, s)
	n := 0
	for _, b := range first.Timber[0].Boards {
		n += len(b.Numbers)
	}
	r := again(t, s, Round{Boards: []Sawn{{From: 1, To: n, Cut: true, Path: "p"}}})
	f := r.Timber[0]
	if len(f.Boards) != 0 || f.Buy != 0 || r.Progress.Left != 0 || len(f.Bench.Done) != n || r.Progress.Parts != 20 {
		t.Errorf("%+v, %+v", f.Boards, r.Progress)
	}
	if !strings.Contains(r.Progress.Says, "0 parts left to saw") {
		t.Error(r.Progress.Says)
	}
}

// A spoilt part is sawn again, a knot is cut round, a short board is taken as it
// is, one rejected is used no more; boards that change say so.
func TestWhatIsToldIsHeeded(t *testing.T) {
	s := CutSpec{Spec: Spec{Name: "Posts", Show: "us", Timber: []Timber{{Name: "pine", Nominal: "1x4", Length: 96 * inLong, PriceMinor: 449, Currency: "USD", From: "job file"}}},
		Parts: []ListPart{{Name: "post", Outside: 30 * inLong, Count: 12, Path: "parts[0]"}}}
	if first := cutOf(t, s); first.Timber[0].Buy != 4 || len(first.Timber[0].Boards) != 1 {
		t.Fatalf("%+v", first.Timber[0].Boards)
	}
	r := again(t, s, Round{Boards: []Sawn{
		{From: 1, To: 1, Cut: true, Path: "p"},
		{From: 2, To: 2, Parts: 1, Path: "p"},
		{From: 3, To: 3, Spans: [][2]unit.Length{{31 * inLong, 40 * inLong}}, Path: "p"},
	}, Spoilt: []Spoilt{{Mark: "post", Count: 1, Path: "p"}}})
	f := r.Timber[0]
	if f.Parts[0].Sawn != 4 || f.Parts[0].Spoilt != 1 || f.Parts[0].Saw != 9 || onBoards(r)["post"] != 9 {
		t.Errorf("%+v", f.Parts[0])
	}
	if b := boardAt(t, r, 2); !b.Begun || b.Changed || len(b.Parts) != 2 || !b.Parts[0].Shares {
		t.Errorf("the board begun: %+v", b)
	}
	if b := boardAt(t, r, 3); len(b.Spans) != 1 || !b.Changed {
		t.Errorf("the board with a knot: %+v", b)
	}
	if b := boardAt(t, r, 4); b.Changed || len(b.Parts) != 3 {
		t.Errorf("the board that goes on: %+v", b)
	}
	// 2 on board 2, 2 beside the knot on board 3, 3 on board 4: two are left for a new board, number 5.
	if b := boardAt(t, r, 5); !b.Changed || b.OnHand || len(b.Parts) != 2 || f.Buy != 1 || f.CostMinor != 449 {
		t.Errorf("the board to buy: %+v, %d", b, f.Buy)
	}
	if !strings.Contains(f.Bench.Says, "1 board more to buy, ") || f.Bench.Bought != 4 || len(f.Bench.Done) != 3 {
		t.Errorf("%+v", f.Bench)
	}
	// A second round goes on from those papers: the new board is short, board 4 is rejected.
	r = again(t, s, Round{Boards: []Sawn{
		{From: 1, To: 1, Cut: true, Path: "p"},
		{From: 2, To: 2, Parts: 1, Path: "p"},
		{From: 3, To: 3, Spans: [][2]unit.Length{{31 * inLong, 40 * inLong}}, Path: "p"},
	}, Spoilt: []Spoilt{{Mark: "post", Count: 1, Path: "p"}}},
		Round{Boards: []Sawn{{From: 5, To: 5, Short: 60 * inLong, Path: "p"}, {From: 4, To: 4, Rejected: true, Path: "p"}, {From: 2, To: 2, Cut: true, Path: "p"}}})
	f = r.Timber[0]
	if b := boardAt(t, r, 5); len(b.Parts) != 1 || !b.Changed {
		t.Errorf("the short board: %+v", b)
	}
	if onBoards(r)["post"] != 7 || f.Buy != 2 || boardAt(t, r, 6).OnHand {
		t.Errorf("%v, %d to buy", onBoards(r), f.Buy)
	}
}

// A board bought that is not needed any more stays whole, and that is said.
func TestABoardStaysWhole(t *testing.T) {
	s := CutSpec{Spec: Spec{Name: "Posts", Show: "us", Timber: []Timber{{Name: "pine", Nominal: "1x4", Length: 96 * inLong, From: "job file"}}},
		Parts: []ListPart{{Name: "post", Outside: 30 * inLong, Count: 5, Path: "parts[0]"}, {Name: "stub", Outside: 10 * inLong, Count: 1, Path: "parts[1]"}}}
	first := cutOf(t, s)
	// The first board gives three posts; the second the rest. What is left of a
	// board cut whole can give the stub.
	if first.Timber[0].Buy != 2 {
		t.Fatal(first.Timber[0].Buy)
	}
	r := again(t, s, Round{Boards: []Sawn{{From: 1, To: 1, Cut: true, Path: "p"}}})
	if r.Timber[0].Bench.Whole != 0 || r.Timber[0].Buy != 0 {
		t.Errorf("%+v", r.Timber[0].Bench)
	}
}

func TestRefusedProgress(t *testing.T) {
	s := shelves()
	mark := PacketMark(bareInput)
	for name, c := range map[string]struct {
		round Round
		want  snag.Snag
	}{
		"other papers":    {Round{Packet: "0000", Path: "rounds[0]"}, snag.Snag{Code: "progress-packet", Place: snag.Place{Path: "rounds[0].packet"}}},
		"no such board":   {Round{Packet: mark, Boards: []Sawn{{From: 40, To: 40, Cut: true, Path: "b"}}}, snag.Snag{Code: "progress-board", Place: snag.Place{Path: "b"}}},
		"no such timber":  {Round{Packet: mark, Boards: []Sawn{{Timber: "oak", From: 1, To: 1, Cut: true, Path: "b"}}}, snag.Snag{Code: "progress-board", Place: snag.Place{Path: "b"}}},
		"told twice":      {Round{Packet: mark, Boards: []Sawn{{From: 1, To: 2, Cut: true, Path: "b"}, {From: 2, To: 2, Cut: true, Path: "c"}}}, snag.Snag{Code: "progress-board", Place: snag.Place{Path: "c"}}},
		"too many parts":  {Round{Packet: mark, Boards: []Sawn{{From: 1, To: 1, Parts: 40, Path: "b"}}}, snag.Snag{Code: "progress-board-told", Place: snag.Place{Path: "b"}}},
		"beyond its end":  {Round{Packet: mark, Boards: []Sawn{{From: 1, To: 1, Spans: [][2]unit.Length{{400 * inLong, 401 * inLong}}, Path: "b"}}}, snag.Snag{Code: "progress-board-told", Place: snag.Place{Path: "b"}}},
		"longer":          {Round{Packet: mark, Boards: []Sawn{{From: 1, To: 1, Short: 400 * inLong, Path: "b"}}}, snag.Snag{Code: "progress-board-told", Place: snag.Place{Path: "b"}}},
		"no such part":    {Round{Packet: mark, Spoilt: []Spoilt{{Mark: "rial", Count: 1, Path: "s"}}}, snag.Snag{Code: "progress-spoilt", Place: snag.Place{Path: "s"}}},
		"more than sawn":  {Round{Packet: mark, Spoilt: []Spoilt{{Mark: "rail", Count: 1, Path: "s"}}}, snag.Snag{Code: "progress-spoilt", Place: snag.Place{Path: "s"}}},
		"nothing is told": {Round{Packet: mark, Boards: []Sawn{{From: 1, To: 1, Path: "b"}}}, snag.Snag{Code: "progress-board-told", Place: snag.Place{Path: "b"}}},
	} {
		_, snags, err := Recut(context.Background(), s, BuiltIn(), bareInput, Progress{Rounds: []Round{c.round}})
		if err != nil || len(snags) != 1 || snags[0].Code != c.want.Code || snags[0].Place != c.want.Place || snags[0].Problem == "" || snags[0].Remedy == "" {
			t.Errorf("%s: %v %+v", name, err, snags)
		}
	}
	// Rounds that are changed later no longer lead to the papers printed then.
	rounds := marked([]Round{{Boards: []Sawn{{From: 1, To: 1, Cut: true}}}, {Boards: []Sawn{{From: 2, To: 2, Cut: true}}}})
	rounds.Rounds[0].Boards[0].To = 2
	_, snags, err := Recut(context.Background(), s, BuiltIn(), bareInput, rounds)
	if err != nil || len(snags) != 1 || snags[0].Code != "progress-packet" || snags[0].Place.Path != "rounds[1].packet" || !strings.Contains(snags[0].Remedy, "leave the rounds above") {
		t.Errorf("%v %+v", err, snags)
	}
	// When no board is left and none can be bought, that is said.
	s.Timber[0].Lengths, s.Timber[0].OnHand = nil, []HandBoard{{Count: 4, Length: 120 * inLong}}
	s.Timber[0].Lengths = []StockLength{{Length: 96 * inLong, Most: 1}}
	first := cutOf(t, s)
	n := first.Timber[0].Buy + first.Timber[0].FromHand
	_, snags, err = Recut(context.Background(), s, BuiltIn(), bareInput, marked([]Round{{Boards: []Sawn{{From: 1, To: n, Rejected: true, Path: "b"}}}}))
	if err != nil || len(snags) != 1 || snags[0].Code != "boards-short" {
		t.Errorf("%v %+v", err, snags)
	}
}

// Of a job too, what is cut stays cut: its frames' parts are counted whole, and
// the papers are those of what is left.
func TestReplanAJob(t *testing.T) {
	s := hexagons()
	first, snags, err := Plan(context.Background(), s, BuiltIn())
	if err != nil || snags.Stops() {
		t.Fatal(err, snags)
	}
	b := first.Timber[0].Boards[0]
	r, snags, err := Replan(context.Background(), s, BuiltIn(), bareInput, marked([]Round{{Boards: []Sawn{{From: b.Numbers[0], To: b.Numbers[0], Parts: 2, Path: "b"}}}}))
	if err != nil || snags.Stops() {
		t.Fatal(err, snags)
	}
	verified(t, r)
	if r.Timber[0].Parts[0].Sawn != 2 || r.Timber[0].Buy != 0 || r.Overall.PartCount != first.Overall.PartCount || !boardAt(t, r, b.Numbers[0]).Begun {
		t.Errorf("%+v", r.Timber[0].Parts)
	}
}

// What is told of the bench is held to itself when a result is looked over.
func TestTheBenchIsVerified(t *testing.T) {
	r := again(t, shelves(), Round{Boards: []Sawn{{From: 1, To: 1, Cut: true, Path: "p"}, {From: 2, To: 2, Parts: 1, Path: "p"}}})
	for name, change := range map[string]func(f *TimberFacts){
		"fewer cut":        func(f *TimberFacts) { f.Bench.Done[0].Cut-- },
		"more than it has": func(f *TimberFacts) { f.Bench.Done[1].Cut = 99 },
		"another part":     func(f *TimberFacts) { f.Bench.Done[0].Board.Parts[0].Mark = "rail" },
		"a number twice":   func(f *TimberFacts) { f.Bench.Boards[0].Number = f.Bench.Boards[1].Number },
		"more spoilt":      func(f *TimberFacts) { f.Parts[0].Spoilt = 99 },
		"a board less":     func(f *TimberFacts) { f.Bench.Boards = f.Bench.Boards[1:] },
		"sawn, not told":   func(f *TimberFacts) { f.Parts[0].Sawn++ },
	} {
		data, err := json.Marshal(r)
		if err != nil {
			t.Fatal(err)
		}
		var bad Result
		if err := json.Unmarshal(data, &bad); err != nil {
			t.Fatal(err)
		}
		change(&bad.Timber[0])
		verdicts, wrong := Verify(bad)
		if len(verdicts[0].Wrong)+len(wrong) == 0 {
			t.Errorf("%s: not found", name)
		}
	}
}

// A part that no board of a list gives is told in words of a list.
func TestTooLongForAList(t *testing.T) {
	s := shelves()
	s.Parts[0].Outside = 200 * inLong
	_, snags, err := Cut(context.Background(), s, BuiltIn())
	if err != nil || len(snags) != 1 || snags[0].Code != "part-uncuttable" || !strings.Contains(snags[0].Remedy, "make the part shorter") || snags[0].Place.Path != "parts[0]" {
		t.Errorf("%v %+v", err, snags)
	}
}
