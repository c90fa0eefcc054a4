package parse

import (
	"testing"
)

func TestParseLength(t *testing.T) {
	faults := []struct {
		text string
		code Code
	}{
		{"", CodeNotALength},
		{"keel", CodeNotALength},
		{"-35", CodeNotALength},
		{"35 apples", CodeNotALength},
		{"3O", CodeNotALength},
		{"-", CodeNotALength},
		{"41/2", CodeFraction},
		{"35/2", CodeFraction},
		{"35.5 1/2", CodeFraction},
		{"35 3/7", CodeFraction},
		{"1,250", CodeThousands},
		{"1 250", CodeSeveralNumbers},
		{"1 250 cm", CodeSeveralNumbers},
		{"1,250 cm", CodeThousands},
		{"1.250", CodeThousands},
		{"1,250.5", CodeThousands},
		{"35,36", CodeThousands},
		{"46-47", CodeRange},
		{"46 – 47", CodeRange},
		{"46 to 47", CodeRange},
		{"46 or 47", CodeRange},
		{"46 ou 47", CodeRange},
		{"about 46", CodeApproximate},
		{"~46", CodeApproximate},
		{"46?", CodeApproximate},
		{"46ish", CodeApproximate},
		{"environ 117 cm", CodeApproximate},
		{`"`, CodeDitto},
		{`〃`, CodeDitto},
		{`''`, CodeDitto},
		{`- " -`, CodeDitto},
		{"ditto", CodeDitto},
		{"same", CodeDitto},
		{"idem", CodeDitto},
		{"2026-01-02", CodeDate},
		{"2-Jan", CodeDate},
		{"1/2/26", CodeDate},
		{"35-janv", CodeDate},
		{"=A3+1", CodeFormula},
		{"#REF!", CodeCellError},
		{"#DIV/0!", CodeCellError},
		{"15 9", CodeSeveralNumbers},
		{"35 36", CodeSeveralNumbers},
		{"15-9", CodeRange},
		{`3' 15"`, CodeSeveralNumbers},
		{`2.5' 3"`, CodeSeveralNumbers},
		{`35" 36"`, CodeSeveralNumbers},
		{"35 in (95 cm)", CodeSeveralNumbers},
		{"1 m 5", CodeSeveralNumbers},
		{"15 feet and a half", CodeNotALength}, // of a foot or of an inch
		{"26 1/2 inches and a half", CodeNotALength},
	}
	for _, tt := range faults {
		if a, f := ParseLength(tt.text); f.Code != tt.code || f.Message == "" {
			t.Errorf("ParseLength(%q) = %v, %q; want fault %q", tt.text, a, f.Code, tt.code)
		}
	}
	lengths := []struct {
		text  string
		n     float64
		scale Scale
	}{
		{"35.5", 35.5, Bare},
		{"35,5", 35.5, Bare},
		{"35,25", 35.25, Bare},
		{"1,86 m", 1.86, ScaleM},
		{"35.", 35, Bare},
		{"35 1/2", 35.5, Bare},
		{"35-1/2", 35.5, Bare},
		{"35½", 35.5, Bare},
		{`35 ½"`, 35.5, ScaleInch},
		{"35 and a half", 35.5, Bare},
		{"35 po 1/2", 35.5, ScaleInch},
		{"26 pouces et demi", 26.5, ScaleInch},
		{"26 inches and a half", 26.5, ScaleInch},
		{"26 inches and three quarters", 26.75, ScaleInch},
		{"15 pieds 9 pouces et demi", 189.5, ScaleInch},
		{"41 and one half", 41.5, Bare},
		{"41 and a quarter in", 41.25, ScaleInch},
		{"20 and three quarters", 20.75, Bare},
		{"15 ft 9 and one half in", 189.5, ScaleInch},
		{"52 et trois quarts", 52.75, Bare},
		{"52 et un quart", 52.25, Bare},
		{"35 1⁄2", 35.5, Bare},
		{"4½", 4.5, Bare},
		{"35 7/16", 35.4375, Bare},
		{"35 1/32", 35.03125, Bare},
		{"35.125", 35.125, Bare},
		{"２９.５", 29.5, Bare},
		{"35\u00a01/2\u2009in", 35.5, ScaleInch},
		{"35''", 35, ScaleInch},
		{"35” ", 35, ScaleInch},
		{"35 inches", 35, ScaleInch},
		{"2'11½\"", 35.5, ScaleInch},
		{"2’11½”", 35.5, ScaleInch},
		{"2′ 11½″", 35.5, ScaleInch},
		{"2 ft 11.5 in", 35.5, ScaleInch},
		{"2ft 11 1/2", 35.5, ScaleInch},
		{"2 feet, 11 1/2 inches", 35.5, ScaleInch},
		{"15' 9", 189, ScaleInch},
		{"15'-9\"", 189, ScaleInch},
		{"15'9-1/2\"", 189.5, ScaleInch},
		{"15 ft", 15, ScaleFoot},
		{"15'", 15, ScaleFoot},
		{"15 pi 9 po", 189, ScaleInch},
		{"15 pieds 9 pouces", 189, ScaleInch},
		{"1\u202f250", 1250, Bare},
		{"1\u2009250 mm", 1250, ScaleMM},
		{"1 250 mm", 1250, ScaleMM},
		{"12\u00a0250 mm", 12250, ScaleMM},
		{"80 cm", 80, ScaleCM},
		{"80cm.", 80, ScaleCM},
		{"80,5 cm", 80.5, ScaleCM},
		{"0.8 m", 0.8, ScaleM},
		{"1.250 m", 1.25, ScaleM},
		{"800mm", 800, ScaleMM},
		{"4 m 80", 480, ScaleCM},
		{"4m80", 480, ScaleCM},
		{"4 m 80 cm", 480, ScaleCM},
		{"15' 9\" (480 cm)", 189, ScaleInch},
		{"35.5 in = 90 cm", 35.5, ScaleInch},
		{"1/2", 0.5, Bare},
	}
	for _, tt := range lengths {
		if a, f := ParseLength(tt.text); f.Some() || a != (Amount{tt.n, tt.scale}) {
			t.Errorf("ParseLength(%q) = %v, %q; want %v %q", tt.text, a, f.Code, tt.n, tt.scale)
		}
	}
}
