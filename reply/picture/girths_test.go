package picture

import (
	"testing"
)

func TestForShop(t *testing.T) {
	for name, report := range reports() {
		p, err := ForShop(report)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		show(t, "shop-"+name, p)
		t.Log(name, p.Alt, len(p.PNG))
	}
}
