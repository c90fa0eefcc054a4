package picture

import (
	"bytes"
	"image/png"
	"strings"
	"testing"
)

func samplePost(t *testing.T) Post {
	t.Helper()
	plot, err := ForShop(reports()["one-ten"])
	if err != nil {
		t.Fatal(err)
	}
	return Post{
		Place: "orders channel",
		Title: "Job 14: Ida Brandt, cedar canoe, 15 ft 9 in: 1 number to measure again",
		Lines: []string{
			"From ida@brandt.example · 15 ft 9 in, pointed stern · 15 of 15 stations read",
			"Odd: 7 ft, hull girth: read 41, expected 51, probably a ten dropped",
		},
		Buttons: []Button{{"Send", true}, {"Edit", false}, {"Correct", false}, {"Hold", false}},
		Replies: []Post{
			{Place: "in the thread", PNG: plot.PNG},
			{Lines: []string{"Letter 14-1:\n\nDear Ida,\n\nThank you for measuring. One place needs the tape again: " + strings.Repeat("please measure it twice and write both down. ", 5) + "\n\nPinfold Cover Loft"}},
		},
		Note: "waits for you",
	}
}

func TestOfPost(t *testing.T) {
	p, err := OfPost(samplePost(t))
	if err != nil {
		t.Fatal(err)
	}
	show(t, "post", p)
	decoded, err := png.Decode(bytes.NewReader(p.PNG))
	if err != nil {
		t.Fatal(err)
	}
	if size := decoded.Bounds().Size(); size.X != postWidth || size.Y < 1200 || size.Y > 2400 {
		t.Errorf("size %v", size)
	}
	if !strings.Contains(p.Alt, "Job 14") {
		t.Errorf("alternative text %q", p.Alt)
	}
}

func TestOfPostKeepsItsBounds(t *testing.T) {
	if _, err := OfPost(Post{PNG: []byte("no picture")}); err == nil {
		t.Error("a broken picture was drawn")
	}
	for name, post := range map[string]Post{
		"empty": {}, "endless": {Lines: []string{strings.Repeat("word ", 40000)}}, "no blanks": {Title: strings.Repeat("x", 5000)},
	} {
		p, err := OfPost(post)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		config, err := png.DecodeConfig(bytes.NewReader(p.PNG))
		if err != nil || config.Height > postMost || config.Height < 2*postMargin {
			t.Errorf("%s: %+v, %v", name, config, err)
		}
	}
}
