//go:build !unix

package store

// roomFor is for systems that can limit a file's size.
const roomFor = "BOWERWRIGHT_TEST_ROOM"

func saveIntoLittleRoom(string) int { return 1 }
