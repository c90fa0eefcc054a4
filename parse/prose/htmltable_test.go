package prose

import "testing"

// Cells of web tables that span rows and columns keep the numbers under their own
// headings, and a list of terms is lines of cells.
func TestHTMLTable(t *testing.T) {
	rows := func(lead string) string {
		return "<tr>" + lead + "<td>1</td><td>31</td><td>39</td></tr><tr>" + lead + "<td>2</td><td>37</td><td>52.5</td></tr><tr>" + lead +
			"<td>3</td><td>41.5</td><td>62</td></tr><tr>" + lead + "<td>4</td><td>43</td><td>67</td></tr></table>"
	}
	const stations = " 12:31,39 24:37,52.5 36:41.5,62 48:43,67"
	for _, c := range []struct{ name, body, want string }{
		{"headings over two rows", `<table><tr><th rowspan="2">Station (ft)</th><th colspan="2">Girth (inches)</th><th rowspan="2">Notes</th></tr><tr><th>hull</th><th>full</th></tr>` + rows(""),
			"in - - - -" + stations},
		{"a name beside all rows", `<table><tr><th>Boat</th><th>Station (ft)</th><th>Hull (in)</th><th>Full (in)</th></tr><tr><td rowspan="5">Heron</td></tr>` + rows(""),
			"in - - - -" + stations},
		{"a title over the table", `<table><tr><th colspan="3">My canoe</th></tr><tr><th>Station (ft)</th><th>Hull (in)</th><th>Full (in)</th></tr>` + rows(""), "in - - - -" + stations},
		{"a span that is none", `<table><tr><th rowspan="x">Station (ft)</th><th colspan="0">Hull (in)</th><th rowspan="-3">Full (in)</th></tr>` + rows(""), "in - - - -" + stations},
		{"a sheet with its letters and numbers", `<table><thead><tr><th></th><th>A</th><th>B</th><th>C</th></tr></thead><tbody>` +
			`<tr><th>1</th><td>Length overall</td><td>5 ft 3 in</td><td></td></tr><tr><th>2</th><td>Bow height</td><td>18 in</td><td></td></tr><tr><th>3</th><td></td><td></td><td></td></tr>` +
			`<tr><th>4</th><td>Station (ft)</td><td>Hull (in)</td><td>Full (in)</td></tr><tr><th>5</th><td>1</td><td>31</td><td>39</td></tr><tr><th>6</th><td>2</td><td>37</td><td>52.5</td></tr>` +
			`<tr><th>7</th><td>3</td><td>41.5</td><td>62</td></tr><tr><th>8</th><td>4</td><td>43</td><td>67</td></tr></tbody></table>`, "in 63 18 - -" + stations},
		{"terms", "<dl><dt>Length overall</dt><dd>6 ft 1 in</dd><dt>Bow height</dt><dd>18 in</dd><dt>Carry point</dt><dd>21 in (the toggle)</dd></dl>", "in 73 18 - 21"},
		{"a term without anything", "<dl><dt>Bow height</dt><dt>Stern height</dt><dd>17 in</dd></dl>", "in - - 17 -"},
	} {
		if got := shortForm(Read("x.html", "", c.body)); got != c.want {
			t.Errorf("%s:\ngot  %s\nwant %s", c.name, got, c.want)
		}
	}
}
