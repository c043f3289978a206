package cli

import (
	"bowerwright/job"
	"bowerwright/jobfile"
	"bowerwright/snag"
)

// doneFlag names what is sawn already.
type doneFlag struct {
	Done string `placeholder:"FILE" help:"What is sawn already, as docs/progress.md tells: what is cut stays cut, the rest is planned anew."`
}

// A sawnSoFar is a file of progress as it was read; of none it is nil.
type sawnSoFar struct {
	job.Progress
	file  *jobfile.File
	snags snag.List
}

// read reads the file of progress, if one is named.
func (d doneFlag) read(e *env) (*sawnSoFar, error) {
	if d.Done == "" {
		return nil, nil
	}
	text, err := readUpTo(d.Done, mostBytes, "file of progress")
	if err != nil {
		return nil, err
	}
	s := &sawnSoFar{}
	s.Progress, s.file, s.snags = jobfile.ReadProgress(text, inputName(d.Done))
	e.log.Debug("read", "progress", d.Done, "rounds", len(s.Rounds))
	return s, nil
}

// stops tells whether the file has something to put right.
func (s *sawnSoFar) stops() bool { return s != nil && s.snags.Stops() }

// with adds what is wrong with the file to other snags.
func (s *sawnSoFar) with(others snag.List) snag.List {
	if s != nil {
		others.Add(s.snags...)
		others.Sort()
	}
	return others
}

// source gives the text of the file, or of others, by its name.
func (s *sawnSoFar) source(others snag.Source) snag.Source {
	return func(name string) (string, bool) {
		if s != nil {
			if text, ok := s.file.Source(name); ok {
				return text, true
			}
		}
		return others(name)
	}
}

// locate gives the place of a path in the file, or in others.
func (s *sawnSoFar) locate(others func(string) snag.Place) func(string) snag.Place {
	return func(path string) snag.Place {
		if s != nil {
			if at := s.file.Locate(path); at.Line > 0 {
				return at
			}
		}
		return others(path)
	}
}

// seal puts on a result what it was made by and from, and file and line on its
// snags.
func (s *sawnSoFar) seal(e *env, r *job.Result, input string, snags snag.List, locate func(string) snag.Place) {
	r.MadeBy = "bowerwright " + e.version
	r.InputSHA256 = input
	if s != nil {
		r.InputSHA256 = job.ProgressSHA256(input, s.Rounds)
	}
	r.Mark = job.PacketMark(r.InputSHA256)
	for i := range snags {
		snags[i].Place = s.locate(locate)(snags[i].Place.Path)
	}
	snags.Sort()
}

// planAfter is plan for what is left when some is sawn.
func planAfter(e *env, spec job.Spec, file *jobfile.File, done *sawnSoFar) (job.Result, snag.List, error) {
	if done == nil {
		return plan(e, spec, file)
	}
	result, snags, err := job.Replan(e.ctx, spec, job.BuiltIn(), file.SHA256(), done.Progress)
	if err != nil {
		return result, nil, err
	}
	done.seal(e, &result, file.SHA256(), snags, file.Locate)
	return result, snags, nil
}
