package site

// More questions, each judged before it was tried, as the others were: what
// students typed differently, in other words, with other slips (common
// practice, no source).
var moreQuestions = []question{
	// order, said otherwise
	{"oat over slate", []string{"HS OH"}, []string{"OH HS"}, 1, false},
	{"slate under plum", []string{"HS PP"}, []string{"PP HS"}, 1, false},
	{"anything over pitch", []string{"PI *"}, []string{"PI", "LR PI"}, 11, false},
	{"which glazes go under tarn blue", []string{"* TB"}, []string{"TB", "TB QM"}, 11, false},
	{"tarn blue over anything", []string{"* TB"}, []string{"TB QM"}, 11, false},
	{"rust with milk underneath", []string{"QM LR"}, []string{"LR QM"}, 1, false},
	{"milk beneath rust", []string{"QM LR"}, []string{"LR QM"}, 1, false},
	{"dip in milk and then in rust", []string{"QM LR"}, []string{"LR QM"}, 1, false},
	{"milk, then rust on top", []string{"QM LR"}, []string{"LR QM"}, 1, false},
	{"1st milk 2nd rust", []string{"QM LR"}, []string{"LR QM"}, 1, false},
	{"base coat milk", []string{"QM *"}, []string{"LR QM"}, 0, false},
	{"top coat milk", []string{"* QM"}, []string{"QM LR"}, 0, false},
	{"MW > PI", []string{"MW PI"}, []string{"PI MW"}, 1, false},
	{"MW/PI", []string{"MW PI"}, []string{"QM", "TB"}, 0, false},
	{"mlik over rsut", []string{"LR QM"}, []string{"QM LR"}, 1, false},
	{"moss and honey", []string{"MW HG", "HG MW"}, []string{"MW", "HG"}, 2, false},
	{"pitch by itself", []string{"PI"}, []string{"PI QM", "QM PI"}, 1, false},

	// not
	{"not shiny", []string{"QM", "HS"}, []string{"TB", "PI", "FG", "HG"}, 0, false},
	{"blue but not dark", []string{"SF"}, []string{"TB"}, 0, false},
	{"no copper", []string{"QM", "LR"}, []string{"CM", "CM *", "* CM"}, 0, false},
	{"without tarn blue", []string{"QM", "LR QM"}, []string{"TB", "TB *", "* TB"}, 121, false},
	{"I don't want it to crawl", []string{"QM", "LR QM"}, []string{"OH", "OH *", "* OH"}, 121, false},
	{"won't run", []string{"QM", "LR"}, []string{"SF", "HG", "SF *", "* HG"}, 100, false},
	{"anything but blue", []string{"QM", "LR"}, []string{"TB", "QM TB"}, 0, false},

	// food
	{"safe for dishes", []string{"QM"}, []string{"FG", "CM", "* CM"}, 0, true},
	{"can I drink from it", []string{"QM"}, []string{"FG", "CM"}, 10, true},
	{"bowl", []string{"QM"}, []string{"FG", "CM"}, 0, true},
	{"poisonous", []string{"CM"}, []string{"QM", "HS"}, 0, true},
	{"what can go inside of a mug", []string{"QM"}, []string{"FG", "CM"}, 0, true},
	{"glossy blue food safe mug", []string{"TB"}, []string{"FG TB", "CM"}, 0, true},
	{"will it leach", []string{"CM"}, []string{"QM"}, 0, true},

	// colors
	{"sky blue", []string{"SF"}, []string{"TB", "LR", "PI", "HG"}, 0, false},
	{"cobalt", []string{"TB"}, []string{"LR", "QM", "HG"}, 0, false},
	{"indigo", []string{"TB"}, []string{"LR", "QM", "HG"}, 0, false},
	{"brick red", []string{"LR"}, []string{"TB", "QM", "MW"}, 0, false},
	{"terracotta", []string{"LR"}, []string{"TB", "QM", "MW"}, 0, false},
	{"olive", []string{"MW"}, []string{"TB", "LR", "QM"}, 0, false},
	{"tan", []string{"OH"}, []string{"TB", "PI", "MW"}, 0, false},
	{"ivory", []string{"QM"}, []string{"TB", "PI", "LR"}, 0, false},
	{"ochre", []string{"HG"}, []string{"TB", "QM", "PI"}, 0, false},
	{"mustard", nil, []string{"TB", "PI", "QM", "LR"}, 0, false},
	{"plum", []string{"PP"}, []string{"TB", "MW", "HG"}, 0, false},
	{"lavender", nil, []string{"LR", "MW", "HG", "PI"}, 0, false},
	{"burgundy", nil, []string{"TB", "QM", "MW"}, 0, false},
	{"pink", nil, []string{"MW", "TB", "PI"}, 0, false},
	{"brown", []string{"LR"}, []string{"TB", "QM", "MW"}, 0, false},
	{"reddish brown", []string{"LR"}, []string{"TB", "MW", "QM"}, 0, false},
	{"greeny blue", []string{"CM"}, []string{"LR", "QM", "PI"}, 0, false},
	{"iron red", []string{"LR"}, []string{"TB", "QM"}, 0, false},
	{"gren", []string{"MW", "FG"}, []string{"LR", "TB"}, 0, false},
	{"purpel", []string{"PP"}, []string{"QM", "MW"}, 0, false},
	{"something pale", []string{"QM", "FG"}, []string{"PI", "TB"}, 0, false},
	{"dark", []string{"PI", "TB"}, []string{"QM", "OH"}, 0, false},
	{"the whitest one", []string{"QM"}, []string{"PI", "TB"}, 0, false},
	{"matte blue", nil, []string{"TB", "LR", "QM"}, 0, false},
	{"satin brown", []string{"LR"}, []string{"TB", "QM"}, 0, false},

	// what it does, numbers
	{"streaky", []string{"SF"}, []string{"QM", "TB"}, 0, false},
	{"with spots", []string{"OH", "HS"}, []string{"TB", "QM"}, 0, false},
	{"which tiles crack", []string{"FG"}, []string{"QM", "TB"}, 0, false},
	{"crazing", []string{"FG"}, []string{"QM", "TB"}, 0, false},
	{"drippy", []string{"SF", "HG"}, []string{"QM", "LR"}, 0, false},
	{"number 13", []string{"FG QM"}, nil, 1, false},
	{"no. 13", []string{"FG QM"}, nil, 1, false},
	{"cone 6", []string{"QM", "LR QM"}, nil, 144, false},
	{"kiln load 2", nil, nil, 48, false},
	{"shows texture", []string{"FG"}, []string{"QM", "PI"}, 0, false},
	{"calm blue", nil, []string{"LR", "HG"}, 0, false},
}
