package jobstest_test

import (
	"testing"

	"bowerwright/internal/jobs"
	"bowerwright/internal/jobs/jobstest"
)

func TestMemory(t *testing.T) {
	jobstest.Run(t, func(*testing.T) jobs.Store { return &jobs.Memory{} })
}
