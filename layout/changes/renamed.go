package changes

import "markout/layout/set"

// Renamed returns, by their names now, what elements were called that are the same in all else and are called otherwise.
func Renamed(old, new *set.Set) map[string]string { return namesOf(old, new).was }
