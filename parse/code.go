package parse

// Problems that any reader of written lengths and surveys may find.
const (
	CodeNotALength     Code = "not-a-length"     // text where a length is expected
	CodeFraction       Code = "unclear-fraction" // 41/2: four and a half, or 41 1/2
	CodeThousands      Code = "unclear-comma"    // 1,250: a decimal comma or thousands
	CodeRange          Code = "range"            // 46-47
	CodeApproximate    Code = "approximate"      // about 46
	CodeDitto          Code = "ditto"            // ditto marks, "same"
	CodeDate           Code = "date"             // a cell that the spreadsheet made a date
	CodeSeveralNumbers Code = "several-numbers"  // two numbers where one is expected
	CodeUnclearOverall Code = "unclear-overall"  // 15.9 or 16 as a length overall
	CodeUnclearFeet    Code = "unclear-feet"     // 15.9 ft: tenths of a foot, or 15 ft 9 in
	CodeFormula        Code = "formula"          // a formula whose result is not in the file
	CodeCellError      Code = "cell-error"       // #REF!, #DIV/0!
	CodeUnitGuessed    Code = "unit-guessed"     // a note: the unit follows from the size of the numbers
	CodeUnitUnclear    Code = "unit-unclear"     // no unit, and the numbers fit more than one
	CodeStationUnclear Code = "station-unclear"  // the place of a row cannot be told
	CodeSourcesDiffer  Code = "sources-differ"   // two places say different things
	CodeTwoBoats       Code = "two-boats"        // two lengths overall or two full tables
	CodeColumnsUnclear Code = "columns-unclear"  // which column is which cannot be told
	CodeOpeningColumn  Code = "opening-column"   // the table gives the opening and no full girth
	CodeUnplaced       Code = "unplaced-number"  // a number that belongs to no measure
	CodeSecondTry      Code = "second-try"       // a place measured twice
	CodeDecimalComma   Code = "decimal-comma"    // a row with more fields than its heading
	CodeTape           Code = "tape-check"       // the tape does not read the paper's edge
	CodeDerived        Code = "derived"          // an opening that does not follow from the girths beside it
	CodeHidden         Code = "hidden"           // numbers in a hidden row, column or sheet
	CodeDoubtful       Code = "doubtful-reading" // handwriting in a box of our form: a person, or the rest of the boat, says what it is
	CodeStruck         Code = "struck-out"       // a number that is struck out, with none in its place
)
