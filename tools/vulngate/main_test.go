package main

import (
	"strings"
	"testing"
)

const opening = `{"config":{"protocol_version":"v1.0.0"}} {"osv":{"id":"GO-1","summary":"reads too far"}} `

func TestJudge(t *testing.T) {
	for _, c := range []struct {
		name, stream string
		lines, bars  int
	}{
		{"clean", ``, 0, 0},
		{"called", `{"finding":{"osv":"GO-1","trace":[{"module":"a/b","package":"a/b/c","function":"F"}]}}`, 1, 1},
		{"imported", `{"finding":{"osv":"GO-1","trace":[{"module":"a/b","package":"a/b/c"}]}}`, 1, 1},
		{"required only", `{"finding":{"osv":"GO-1","trace":[{"module":"a/b"}]}}`, 1, 0},
		{"standard library", `{"finding":{"osv":"GO-1","trace":[{"module":"stdlib","package":"os","function":"Open"}]}}`, 1, 0},
		{"one line for each", `{"finding":{"osv":"GO-1","trace":[{"module":"a/b"}]}}
			{"finding":{"osv":"GO-1","trace":[{"module":"a/b","package":"a/b"}]}}
			{"finding":{"osv":"GO-2","trace":[{"module":"a/b"}]}}`, 2, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := judge(strings.NewReader(opening + c.stream))
			if err != nil {
				t.Fatal(err)
			}
			bars := 0
			for _, v := range got {
				if v.bars {
					bars++
				}
			}
			if len(got) != c.lines || bars != c.bars {
				t.Errorf("%d lines, %d of them bar; want %d, %d: %v", len(got), bars, c.lines, c.bars, got)
			}
		})
	}
}

func TestJudgeSaysWhat(t *testing.T) {
	got, err := judge(strings.NewReader(opening +
		`{"finding":{"osv":"GO-1","fixed_version":"v1.2.3","trace":[{"module":"a/b","version":"v1.0.0","package":"a/b"}]}}`))
	if err != nil {
		t.Fatal(err)
	}
	const want = "a/b v1.0.0 GO-1 (imported, fixed in v1.2.3): reads too far"
	if len(got) != 1 || got[0].line != want {
		t.Errorf("got %v, want %s", got, want)
	}
}

func TestJudgeRefusesSilence(t *testing.T) {
	for _, stream := range []string{"", "{}", `{"config":{}} {"finding":`} {
		if _, err := judge(strings.NewReader(stream)); err == nil {
			t.Errorf("%q accepted", stream)
		}
	}
}
