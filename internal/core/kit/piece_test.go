package kit

import (
	"testing"

	"kernbook/internal/core/qty"
)

// TestCompetentOn holds who counts as a competent person on a day (D-04, D-13):
// a role without the day since when it is held is held on none.
func TestCompetentOn(t *testing.T) {
	for _, c := range []struct {
		p    Person
		day  qty.Day
		want bool
	}{
		{Person{Role: "examiner", Since: 100}, 100, true},
		{Person{Role: "competent person", Since: 100}, 101, true},
		{Person{Role: "examiner", Since: 100}, 99, false},
		{Person{Role: "examiner", Since: -100}, 0, true},
		{Person{Role: "examiner"}, 100, false},
		{Person{Role: "examiner", Until: 200}, 100, false},
		{Person{Role: "examiner", Since: 100, Until: 200}, 200, true},
		{Person{Role: "examiner", Since: 100, Until: 200}, 201, false},
		{Person{Role: "climber", Since: 100}, 150, false},
		{Person{Since: 100}, 150, false},
	} {
		if got := c.p.CompetentOn(c.day); got != c.want {
			t.Errorf("%+v on day %d: %v", c.p, c.day, got)
		}
	}
}
