package parse

// Words of the trade that mean one thing wherever they stand, for every reader, as
// parts of patterns of folded text: common practice in English and French, no
// source.
const (
	// GreatestTerms say that something is the greatest of its kind.
	GreatestTerms = `greatest|maximum|max|widest|largest|biggest|maximale?|plus (?:grande?|large|grosse?|forte?|gros)|fullest|fattest|broadest`
	// AllRoundTerms are the closed loop: the full girth.
	AllRoundTerms = `all (?:the )?(?:way )?a?round|(?:right|once) a?round|a?round everything|over and under|tout (?:autour|le tour)|tour (?:entier|ferme|de tout)`
	// CarryTerms speak of carrying the boat.
	CarryTerms = `carr(?:y|ies|ied|ying)|portage|poignees? de portage|on (?:le|la) porte|pour (?:le |la )?porter`
)
