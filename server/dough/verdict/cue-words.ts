import type { CueKey } from "./cues.ts"

// What several cues are told with.
const much =
  "(?:far |much |way |really |very |too |so |rather |quite |a bit |almost |nearly |still |extremely |super )*"
const loaf = "(?:loaf|loaves|bread|boule|batard|bâtard|roll|rolls|dough|it|they|top|crust)"
const words = (pattern: string) =>
  new RegExp(`\\b(?:${pattern.replaceAll("MUCH", much).replaceAll("LOAF", loaf)})`, "i")

/**
 * How bakers put each cue, in ordinary English. A pattern says of what it speaks where that matters; cues of the levain are
 * looked for only where the levain is spoken of. Our own collection.
 */
export const cueWords: Record<CueKey, RegExp[]> = {
  "levain-runny": [words("runny|pourable|liquid|soupy|watery|thin as")],
  "levain-sunken": [
    words("sunk(?:en)?|sank|sinking|fell\\b|fallen|falling|collaps|deflated|past (?:its |the )?(?:peak|prime|ripe)"),
    words("over-?ripe|over-?matur|too (?:old|ripe|mature)|forgotten|left too long"),
  ],
  "levain-sharp": [
    words("sharp|acrid|vinegar|acetone|nail (?:polish|varnish)|alcohol|hooch|(?:very|too|strongly) (?:sour|acidic)"),
  ],
  "levain-sluggish": [
    words("sluggish|weak|slow\\b|less lively|lazy|hardly (?:rose|bubbl|moved|grew)|barely (?:rose|bubbl|moved|active)"),
    words("(?:did(?: not|n't)|does(?: not|n't)|never) (?:get bubbly|bubble|rise|double|really rise|do much)"),
    words("not (?:very |really |fully )?(?:active|bubbly|at its peak|lively|ripe)|inactive|no bubbles|under-?ripe"),
  ],
  "levain-young": [
    words(
      "(?:\\d+|two|three|few|couple of) (?:days?|weeks?)[ -]old|new starter|young|brand new|just (?:started|revived|made)",
    ),
    words("(?:revived|rebuilt|straight from the fridge|neglected|unfed|not fed)"),
  ],
  "levain-sank-in-water": [
    words("(?:failed|did(?: not|n't) pass) (?:the )?(?:float|water)|sank in water|did(?: not|n't) float"),
  ],
  "levain-lively": [
    words(
      "lively|active|bubbly|vigorous|strong|passed (?:the )?float|floated|floats|(?:doubles|triples|doubled|tripled)",
    ),
    words("at its peak|at peak"),
  ],
  "yeast-flat": [
    words("yeast (?:did(?: not|n't)|never|would(?: not|n't)) (?:foam|froth|bloom|bubble|proof)"),
    words("(?:old|expired|dead|out[- ]of[- ]date|stale) yeast|yeast (?:was |had )?(?:old|expired|dead|out of date)"),
    words("(?:hot|boiling|scalding|too warm) (?:water|milk|liquid)|killed (?:the |my )?yeast"),
  ],
  "wet-from-the-mix": [
    words(
      "(?:MUCH)(?:liquid|wet|runny|soupy|batter|slack|sticky)[^.]*\\b(?:from the (?:start|mix|beginning)|right after mixing|at (?:the )?mix)",
    ),
    words(
      "(?:from the (?:start|mix|beginning)|when mixed|after mixing|at mixing)[^.]*\\b(?:liquid|wet|runny|soupy|batter|slack|sticky)",
    ),
    words(
      "(?:far |much |way )?too (?:liquid|wet|runny)|like (?:a )?(?:batter|soup)|shapeless after|never came together|too much water",
    ),
  ],
  "stiff-dough": [
    words(
      "(?:MUCH)(?:stiff|dry|tough|firm) dough|dough (?:was |felt |came out )?(?:MUCH)(?:stiff|dry|crumbly|firm|tough)",
    ),
    words("hard to (?:knead|mix|bring together)|would(?: not|n't) come together"),
  ],
  "sticky-dough": [
    words(
      "sticky|stuck to (?:the |my |every|board|hands|counter|table|bench)|sticks to (?:the |my |every|hands|board)|tacky",
    ),
    words("dough (?:was |still )?(?:MUCH)wet|wet and sticky|a mess to"),
  ],
  "stickier-with-time": [
    words(
      "stickier|wetter|looser|slacker|softer and softer|worse (?:in the morning|by the|after|with)|got (?:wet|stick|loose|slack)",
    ),
    words("(?:turned|went|became|had become|had gone) (?:MUCH)(?:soupy|liquid|wet|sticky|slack|loose|goo|soft)"),
  ],
  "slack-at-the-end": [
    words(
      "(?:liquid|soup|soupy|pourable|puddle|batter|goo)[^.]*\\b(?:at shaping|when shap|by (?:the )?morning|in the morning|at the end)",
    ),
    words(
      "(?:almost|nearly|practically) (?:liquid|pourable|soup)|loose and wet|slack(?:er)? (?:dough|and)|lost (?:all )?(?:its )?(?:strength|structure)",
    ),
    words("fell apart|broke down|disintegrat|no strength|puddle"),
  ],
  "no-rise": [
    words(
      "(?:did(?: not|n't)|does(?: not|n't)|would(?: not|n't)|never|had(?: not|n't)) (?:rise|rose|risen|grow|grown|move|moved|budge)(?: at all)?\\b(?! (?:in the oven|as|much|enough|well|fully|when baked))",
    ),
    words(
      "(?<!or )no (?:rise|movement|activity|bubbles|sign of (?:life|rise))(?: at all)?\\b|zero rise|not risen|nothing happened|just sat there|unrisen",
    ),
  ],
  "little-rise": [
    words(
      "little (?:or no )?(?:rise|growth)|hardly (?:any )?(?:ris|rose|mov|grew)|barely (?:ris|rose|mov|grew)|rose (?:only |very )?(?:a )?(?:little|slowly)",
    ),
    words(
      "(?:did(?: not|n't)|does(?: not|n't)|never|not) (?:quite )?(?:rise|rose|risen|double[d]?|grow|respond)[ed]* (?:as|much|enough|well|fully|properly|quite)",
    ),
    words(
      "(?:would(?: not|n't)|did(?: not|n't)|never) (?:respond|double|get going)|(?:short of|less than|without) (?:a )?full rise|slow(?:ly)? (?:to )?ris|sluggish|poor rise|low rise|never above|rose only",
    ),
  ],
  "rose-well": [
    words(
      "(?:rose|risen|rises|proofed|proved|puffed(?: up)?) (?:up )?(?:very |really |quite )?(?:well|nicely|beautifully|happily|fine|as (?:it should|usual|expected))",
    ),
    words("(?:rise|proof) was (?:good|fine|great|normal|nice)|good rise|nice rise|great rise|strong rise"),
  ],
  "rose-hugely": [
    words(
      "(?:rose|risen|grew|grown)[^.,]*(?:hugely|enormous|like crazy|like mad|too (?:fast|much|high)|very (?:fast|quickly))|exploded|(?:huge|enormous|massive|giant) rise|tripled|quadrupled",
    ),
  ],
  overflowed: [
    words(
      "over (?:the )?(?:rim|top|edge|side|lip)s? of (?:the |its )?(?:bowl|tub|container|jar|box)|overflow|filled (?:the |its )?(?:bowl|tub|container)|pushed (?:up |off )?(?:the )?lid|out of (?:the |its )?(?:bowl|container|tub)",
    ),
  ],
  doubled: [words("doubled|double in size|twice (?:its|the) size")],
  "giant-bubbles": [
    words(
      "(?:giant|big|huge|large|massive|enormous|lots of|many|full of) (?:surface )?bubbles|bubbl(?:y|ing) (?:like|all over|mess)|blister|very (?:gassy|bubbly|foamy)|too foamy|foamy",
    ),
  ],
  airy: [words("airy|fluffy|billowy|pillowy|puffy|jiggl|wobbl|light and|full of air|soft and smooth")],
  "waited-for-double": [words("wait(?:ed|ing) for (?:it to |a |the )?(?:doubl|double)|doubling that never")],
  "stood-too-long": [
    words(
      "forgot(?:ten)? (?:about|it|the dough|past|on|in|over|all|to (?:put|shape|bake|take))|missed (?:the |my )?(?:timer|alarm)|overslept|fell asleep|past the timer",
    ),
    words(
      "(?:left|stood|sat|went|ran|proofed|proved|fermented|risen|rose|rising) (?:it |out |on |for )?(?:MUCH)(?:too long|longer than|hours? longer|extra hours|until after|all day)|(?:much |far |way )?too long\\b|hours? (?:over|past|more than)|overnight by mistake",
    ),
  ],
  "cut-short": [
    words(
      "(?:cut|kept|made) (?:it |the \\w+ )?(?:too )?short|shortened|skipped (?:the )?(?:\\w+ )?(?:proof|prove|rise|bulk|rest)|rushed|hurried|no (?:second|final|first) (?:proof|rise|prove)|impatient|ran out of time|too (?:early|soon)|straight to the fridge",
    ),
  ],
  "warmer-than-usual": [
    words(
      "(?:warmer|hotter) (?:than|week|day|night|weather|kitchen|room|house|spell)|turned warm|heat ?wave|hot (?:day|night|kitchen|weather|spell|house|summer)|in (?:the )?heat|summer (?:night|heat|day)|heatwave|very (?:warm|hot) (?:day|night|kitchen|room|weather)",
    ),
  ],
  "colder-than-usual": [
    words(
      "(?:colder|cooler) (?:than|week|day|night|weather|kitchen|room|house|spell)|turned (?:cold|cool)|cold (?:snap|day|night|kitchen|house|room|weather|spell|winter)|chilly|since (?:autumn|winter|fall)|in winter|draught|drafty",
    ),
  ],
  "cold-liquid": [
    words(
      "(?:milk|buttermilk|water|liquid|eggs?|cream|yog\\w+) (?:straight |right |still )?(?:from|out of) the (?:fridge|refrigerator)|cold (?:milk|buttermilk|water|liquid|dough|eggs|ingredients)|ice[- ]cold|dough (?:was |felt |still )?(?:too |very )?cold",
    ),
  ],
  "rich-dough": [
    words(
      "brioche|panettone|stollen|(?:very |high(?:ly)? |too )(?:rich|enriched|butter)|high butter|lots of (?:butter|egg|sugar)|rich (?:dough|pan|bread|loaf)",
    ),
  ],
  tears: [
    words(
      "(?:tore|tears|tearing|torn|ripped|rips|ripping)\\b(?! (?:open|in the oven))|(?:no|never (?:got|reached|passed)|failed|without|did(?: not|n't) (?:get|pass|reach|have)) (?:a |the )?window ?pane|no gluten|gluten (?:was |had )?(?:weak|not|un)|lack(?:ed|s|ing) (?:strength|structure|gluten)|never (?:came|come) together smooth|ragged|shaggy",
    ),
  ],
  windowpane: [
    words(
      "(?:good|great|perfect|passed|strong|nice|has|had|got)[^.,]*window ?pane|window ?pane (?:was |and [^.]*)?(?:good|right|fine|ok|perfect|passed|test passed|both right)|smooth and elastic|well[- ]developed gluten",
    ),
  ],
  "hardly-kneaded": [
    words(
      "(?:hardly|barely|not|little|under-?|without|insufficiently|too little|only briefly) ?(?:any )?(?:knead|mix(?:ed|ing)|fold)|did(?: not|n't) (?:knead|fold|mix)|skipped (?:the )?(?:knead|fold)|no (?:knead\\w*|folds?)(?! (?:bread|loaf|dough|recipe))|under-?(?:knead|mix|develop)|(?:butter|fat|oil) not (?:fully |all |quite |properly )?(?:worked|mixed|incorporated)|(?:unmixed|lumps of|streaks of) (?:butter|flour)|poorly mixed",
    ),
  ],
  "kneaded-very-long": [
    words(
      "over-?(?:knead|mix|work)|knead(?:ed|ing)? [^.,]*(?:very long|too long|forever|too much|an hour|\\d\\d min)|mix(?:ed|er|ing)? [^.,]*(?:too long|too much|high speed|top speed|very long)|(?:very |too )long (?:knead|mix)|knead[^.]*very long|chasing a window ?pane",
    ),
  ],
  "flattens-at-rest": [
    words(
      "(?:flatten|spread|slump|relax)\\w* (?:out )?(?:at|during|on|in) (?:the )?(?:bench|pre-?shape|intermediate|rest)|pre-?shape (?:flatten|spread|slump)",
    ),
  ],
  "takes-no-skin": [
    words(
      "(?:no|without|take[sn]? no|not take a|never got a) (?:skin|tension)(?! formed)|limp|feels? dead|blobs?\\b|(?:would(?: not|n't)|could(?: not|n't)|did(?: not|n't)|will not|won't|refused to) (?:stay round|hold|keep (?:its |any |a )?shape|be shaped|shape|form)|(?:hard|impossible|difficult|unable) to shape|un-?shap|shapeless|no shape|(?:far |much |way )?too soft|floppy|slack\\b",
    ),
  ],
  "pushes-back": [
    words(
      "push(?:es|ed)? back|(?:keeps?|kept|holds?|held) (?:its |some |a good |good |the )?shape|good tension|springy dough|bouncy|taut|tight skin|strong dough",
    ),
  ],
  "torn-at-the-bench": [
    words(
      "re-?shap|shaped (?:it )?(?:again|twice|a second time)|dropped (?:it|the)|manhandl|rough (?:handling|with)|knocked (?:it|the|about|down hard)|tore (?:it|the (?:skin|surface|dough)) (?:while|when|at|during) shap|degassed (?:it )?(?:too|while|when|at)|mangled|skin buried|seam on (?:the )?top|upside down|botched|clumsy|poor(?:ly)? shap|shap\\w+ (?:was )?(?:badly|poor|loose|too (?:loose|tight))|loosely shaped",
    ),
  ],
  "flour-at-the-bench": [
    words(
      "(?:lot of|more|extra|much|handfuls? of|\\d+ ?g(?: of)?) flour (?:was )?(?:added|worked|kneaded|needed|on the|while|when|at)|added (?:\\w+ )?(?:more|extra|a lot of|lots of) flour|flour added",
    ),
  ],
  "stuck-to-the-basket": [
    words(
      "(?:stuck|stick|sticks|sticking|clung|clings|glued) (?:to|in|inside) (?:the |its |my )?(?:basket|banneton|brotform|proofing|cloth|towel|couche|linen)|(?:cloth|towel|basket|banneton) stuck|would(?: not|n't) (?:come out|release)",
    ),
  ],
  fell: [
    words(
      "(?:start(?:ed|ing)|beg(?:an|un|inning)|about) to (?:collapse|fall|sink|deflate|droop)|(?:collaps|deflat)\\w* (?:in the (?:fridge|basket|tin|pan|bowl)|before|while (?:proof|waiting|prov|rising)|overnight)|(?:had )?(?:risen and )?(?:fallen|sunk|sank|fell|collapsed) (?:back|again|in on itself|before|overnight|by morning)|flat at \\d+ min",
    ),
  ],
  deflated: [
    words(
      "deflat\\w*(?! in the oven)|(?:collaps|sigh|sank|sagg?|fell|went flat|flatten)\\w* (?:at once |immediately |right away |as soon as )?(?:when|as|on|at|once|after) (?:it |I |was )*(?:\\w+ )?(?:slash|scor|cut|mov|turn|load|transfer|touch|handl)",
    ),
  ],
  "spread-when-turned-out": [
    words(
      "(?:spread|flatten|pancak|pool|ran|slump|oozed|splay)\\w*[^.,]* (?:on|onto|over|across|when|as|out of|once) (?:the |it |its |was )*(?:board|parchment|peel|stone|tray|sheet|counter|paper|turned|tipped|basket|banneton|came out|pan|inverted|baking)|spread (?:out|like|wide|at once|immediately)|flattened (?:at once|immediately|out)",
    ),
  ],
  "skinned-over": [
    words(
      "(?<!no )(?<!without )(?<!any )\\bskin (?:on (?:top|it|the)|formed|had formed|dried)|dried out|dry skin|crusted over|crust(?:y)? (?:formed )?on (?:the )?dough|skinned over",
    ),
  ],
  "unchanged-in-the-fridge": [
    words(
      "no change (?:in size )?(?:overnight|in the fridge|after)|(?:did(?: not|n't)|had(?: not|n't)|never) (?:grow|grown|rise|risen|change|changed|move|moved) (?:overnight|in the fridge|at all (?:overnight|in the fridge))|same size (?:after|in the|next|overnight)",
    ),
  ],
  "waited-for-the-oven": [
    words(
      "wait(?:ed|ing) (?:for|on) (?:the |an? |its turn in the )?oven|queu|oven was (?:busy|full|occupied|in use)|second (?:batch|load) (?:had|waited|sat)|between batches|while the (?:first|other) (?:loaf|loaves|batch) baked",
    ),
  ],
  "never-filled-the-tin": [
    words(
      "(?:never|did(?: not|n't)|not|failed to) (?:quite )?(?:reach|fill|come to|get to|make it to|crest)\\w* (?:the |its |even )*(?:rim|top|edge|tin|pan)|short of the rim|below the rim",
    ),
  ],
  "baked-cold": [
    words(
      "(?:baked|went in|into the oven|put (?:it )?in|dough put) (?:straight )?(?:still )?(?:cold|from the fridge|straight from)|baked cold|straight from the fridge (?:in)?to (?:the )?oven|put cold into",
    ),
  ],
  "oven-not-hot": [
    words(
      "(?:oven|pot|stone|pan|dutch oven|steel|cast iron|pots)[^.,]*(?:not|wasn't|weren't|were not|was not|never) (?:yet |fully |properly |quite )*(?:hot|pre-?heat\\w*|up to|heated|ready)|cold (?:oven|pot|pan|stone|dutch oven)|forgot to (?:pre-?heat|turn on|heat)|(?:did(?: not|n't)|without|no) pre-?heat\\w*|oven (?:was |ran |runs )?(?:too )?(?:cool|cold|low)|under-?heated",
    ),
  ],
  "no-spring": [
    words(
      "(?:no|zero|little|hardly any|barely any|poor|weak|lacking|lack of|not much|minimal) (?:oven )?spring|(?:did(?: not|n't)|never) (?:spring|rise|grow)(?: up)?(?: at all)? (?:in the oven|when baked|much in the oven)|did(?: not|n't) spring|no rise in the oven|no bloom",
    ),
  ],
  "great-spring": [
    words(
      "(?:great|good|big|huge|nice|lovely|massive|excellent|strong|wonderful|fantastic|amazing|better|flavou?r and|impressive|continuous) (?:oven )?spring|sprang (?:up )?(?:well|nicely|beautifully|high)|kept growing|(?:rose|grew|shot up|ballooned|puffed)[^.,]* in the oven",
    ),
  ],
  "some-spring": [
    words(
      "(?:some|a little|a bit of|modest|decent|less|slight) (?:oven )?spring|some recovery|recovered (?:a bit|a little|some)|recovery in the oven",
    ),
  ],
  burst: [
    words(
      "burst|(?:crack|split|tore|ripped|blew|blow)\\w* (?:open|out|apart)|blow-?out|wild (?:break|crack|split)|ruptur|explod\\w* (?:at|on|in the oven|out)|crack(?:ed|s)? (?:on|along|at|down|across|in) (?:the )?(?:side|bottom|base|top|crust)|(?:side|bottom|base) (?:had )?(?:crack|split|blew)|crust cracked",
    ),
  ],
  "cuts-stayed-shut": [
    words(
      "(?:cut|score|slash|scoring|cuts|slashes|scores)\\w* (?:hardly|barely|did(?: not|n't)|never|would(?: not|n't)|stayed|closed|sealed|melted|disappeared|vanished)|no (?:ear|bloom|grigne|ears)\\b|(?:did(?: not|n't)|never) (?:open|bloom)\\w*(?: up)?",
    ),
  ],
  "good-ear": [
    words(
      "(?:good|great|best|nice|lovely|beautiful|fine|big|pronounced|perfect|proud|with an?) (?:\\w+ )?ears?\\b|spring along the score|(?:cut|score|slash)\\w* opened (?:well|nicely|beautifully|up)|opened (?:well|nicely|beautifully)",
    ),
  ],
  "sank-in-the-oven": [
    words(
      "(?:deflat|collaps|sank|sunk|fell|fallen|caved|sagg|dropp)\\w*[^.,]* (?:in|during) (?:the )?(?:oven|bak)|collapsed (?:while|when|as it|halfway|midway)[^.,]*bak",
    ),
  ],
  "ran-over-the-edge": [
    words(
      "(?:ran|spilled|spilt|oozed|dripped|flowed|hung|mushroomed|grew) over (?:the )?(?:edge|side|rim|top)s? of (?:the |its )?(?:stone|tin|pan|tray|sheet|pot)|over the (?:sides?|edge) of (?:the )?(?:tin|pan|stone)",
    ),
  ],
  "split-side": [
    words(
      "(?:split|crack|burst|torn|tear|shred|tore)\\w* (?:along|down|on|at|in|under)? ?(?:the |one |its )?(?:side|top|edge)|side (?:split|crack|burst|tore)|top (?:crust )?(?:lifted|tore|separated) (?:along|from) (?:the )?side",
    ),
  ],
  "sunken-top": [
    words(
      "(?:sunken|dimpled|caved|concave|flat|dipped|collapsed|wrinkled and sunken|sagging) (?:in )?top|top (?:\\w+ )?(?:sank|sunk|caved|dipped|collapsed|was flat|fell)|dimples|dip(?:s)? in the (?:top|middle)|sank in the middle|flat-topped",
    ),
  ],
  flat: [
    words(
      "(?<!went )\\bflat\\b(?! (?:top|bread|at \\d|hearth))|flat and|pancake|frisbee|disc\\b|discs\\b|disk|wide(?:r)? (?:rather )?than (?:it was |it is |they were )?(?:tall|high)|low (?:and|loaf|profile|dome)|squat|no height|spread wide|didn't hold its shape|wide and (?:flat|low)|brick-?like|hockey puck|doorstop",
    ),
  ],
  tall: [
    words(
      "(?:good|great|nice|lovely|decent|impressive) (?:height|volume|loft|structure)|tall\\b|high (?:and|loaf|dome)|stood (?:tall|high|up)|well[- ]domed|nicely domed",
    ),
  ],
  "very-large": [
    words(
      "(?:huge|enormous|giant|fat|massive|gigantic|much bigger|very large|oversized) (?:loaf|loaves|bread|rolls)|(?:loaf|loaves|bread|rolls) (?:was |were |came out )?(?:huge|enormous|giant|massive|bigger than)",
    ),
  ],
  "shape-blurred": [
    words(
      "(?:braid|plait|seam|shape|pattern|definition)\\w*(?: lines?)? (?:was |were |had )?(?:lost|blurred|disappeared|gone|vanished|melted)|lost (?:its |the |their )?(?:braid|plait|shape|definition|pattern)",
    ),
  ],
  lumpy: [words("lumpy|lopsided|misshap|mis-?shapen|uneven shape|wonky|crooked|ugly shape|irregular shape|deformed")],
  "skin-cracked": [
    words(
      "(?:surface|skin|seam) (?:had )?(?:crack|split|tore|opened)|cracks? (?:in|on|along) (?:the )?(?:surface|skin|seam)|dry cracks",
    ),
  ],
  pale: [
    words(
      "(?<!not )\\bpale|did(?: not|n't) (?:brown|colou?r)|would(?: not|n't) brown|blond|anaemic|anemic|no colou?r|under-?coloured|light crust|white crust|grey crust|dull crust",
    ),
  ],
  dark: [
    words(
      "(?:very |too |so |quite )?dark (?:crust|brown|base|bottom|top)|burn[te]|burned|blackened|almost black|over-?baked|over-?browned|scorched|charred",
    ),
  ],
  wrinkled: [words("wrinkl|shrivel|crinkl|leathery")],
  "flying-top": [
    words(
      "(?:hole|gap|cavern|cavity|tunnel|hollow|space|pocket) (?:just |right |directly )?(?:under|below|beneath) (?:the )?(?:top |upper )?(?:crust|top)|flying (?:top|crust|roof)|(?:top )?crust (?:lifted|separat|came away|detached|pulled away|floated)|hollow under",
    ),
  ],
  dense: [
    words(
      "dense(?! (?:in|at|near|towards?|toward) (?:the )?(?:cent|middle|core|bottom|base|inside))|heavy\\b|brick\\b|(?:tight|close|closed|compact)(?:er|ly)? (?:crumb|texture|grain|in places|and heavy|throughout)|stodgy|biscuit-like|lead(?:en)?\\b|hard (?:and dense|as)|no open crumb|doughy|thick crumb",
    ),
  ],
  "tight-and-wet": [
    words(
      "(?:tight|dense|close|compact|heavy)[^.]*\\b(?:wet|moist|damp|gummy)\\b[^.]*crumb|(?:wet|damp)[^.]*\\b(?:tight|dense|close)\\b crumb|dense and (?:wet|moist|damp)",
    ),
  ],
  "tight-and-dry": [words("(?:white|pale)?[^.]*\\b(?:tight|close)[ ,](?:and )?dry")],
  "dense-middle": [
    words(
      "(?:dense|tight|heavy|compact|under-?done|doughy)[^.,]* (?:in|at|near|towards?) (?:the )?(?:very )?(?:cent(?:re|er)|middle|core|bottom|base|inside)|(?:dense|tight|heavy) (?:core|cent(?:re|er)|middle|base)|(?:cent(?:re|er)|middle|core) (?:was |is |still )?(?:dense|tight|heavy|close)",
    ),
  ],
  caverns: [
    words(
      "cavern|(?:very |some |a few |few |several |random )?(?:large|big|huge|giant|enormous) (?:\\w+ )?(?:holes|bubbles in the crumb|voids|cavities|air pockets|pockets)|mouse ?holes?|fool'?s crumb|uneven (?:crumb|holes)|irregular holes|holes (?:here and there|surrounded|among|between|in a dense|with dense)|craters",
    ),
  ],
  "one-big-hole": [
    words(
      "(?:one|a|single|an) (?:big|huge|large|giant|enormous|massive|great|single) (?:air )?(?:hole|cavity|void|bubble|air pocket|pocket)|(?:big|huge|giant) hole\\b",
    ),
  ],
  tunnels: [words("tunnel|long holes?|channels")],
  "holes-near-the-crust": [
    words(
      "holes (?:only )?(?:just |all )?(?:near|under|below|along|around|close to|beneath|towards?) (?:the )?(?:top |edges?|crust|outside)|large holes near",
    ),
  ],
  "many-tiny-holes": [
    words(
      "(?:many|lots of|full of|only|all) (?:tiny|small|little|pin-?prick|fine) holes|tiny holes|small(?:,| )even holes|uniform(?:ly)? small|lac(?:y|ey)",
    ),
  ],
  coarse: [
    words(
      "coarse (?:grain|crumb|texture)?|crumbly and coarse|rough (?:grain|texture|crumb)|grain (?:was |is )?(?:coarse|open)",
    ),
  ],
  "open-and-even": [
    words(
      "(?:open|airy|lacy|holey)[^.]*\\bcrumb|crumb (?:was |is |fairly |quite |nice(?:ly)? |so )*(?:open|airy|even)|even,? (?:and )?open|(?<!tight )(?<!fine )even crumb|wild crumb|glossy crumb|(?:lovely|beautiful|great|perfect|nice|good|wonderful) (?:\\w+ )?crumb|well[- ]aerated",
    ),
  ],
  "fine-and-even": [
    words(
      "(?:crumb|texture|crumb texture) (?:was |is )?(?:just right|perfect|as it should|exactly|spot on)|(?:fine|soft|tender|tight),? (?:and )?(?:even|soft|fluffy|light)[^.,]* ?(?:crumb|texture)|tight even crumb|fine crumb|soft,? fluffy|light and (?:soft|fluffy|tender)|soft and (?:light|fluffy|tender)|shreddable|feathery",
    ),
  ],
  "gummy-crumb": [
    words(
      "gumm[yi]|(?:sticky|wet|damp|doughy|pasty|claggy|raw|under-?cooked|under-?baked|undone|mushy) (?:crumb|inside|centre|center|middle|interior)|(?:crumb|inside|interior|cent(?:re|er)|middle) (?:was |is |still |a bit |slightly |rather )*(?:sticky|wet|damp|doughy|raw|claggy|pasty|under-?baked|under-?cooked|mushy|tacky)|stuck to the knife|knife (?:came out |was )?(?:gummy|sticky|dirty)|under-?baked|under-?done|not (?:fully |quite )?(?:baked|cooked|done) (?:through|inside)|raw in",
    ),
  ],
  "gummy-line": [
    words(
      "(?:gummy|wet|dense|doughy|damp|raw|moist|sticky) (?:line|streak|layer|band|strip|base|bottom)|(?:line|streak|layer|band|strip) (?:of )?(?:gumm|wet|dense|dough|raw|damp)?[^.,]*(?:along|at|near|on) the (?:bottom|base)",
    ),
  ],
  "ropy-crumb": [
    words(
      "rop[yei]\\b|threads|strings? (?:of|in)|smell\\w* (?:of|like) (?:over-?ripe )?(?:fruit|melon|pineapple)|slimy|cobweb",
    ),
  ],
  "dry-crumb": [
    words(
      "(?:MUCH)dry\\b(?! (?:skin|yeast|air|milk|flour|ingredients|cracks))|crumbly|falls apart|fell apart when (?:cut|sliced)|sawdust|stale",
    ),
  ],
  "grey-crumb": [words("gr[ae]y(?:ish|er)?\\b|stal(?:ed|es|ing) (?:fast|quick)|went stale")],
  "tan-crumb": [words("tan (?:crumb|colou?r)|brownish crumb|dark crumb")],
  "too-salty": [words("too salty|very salty|over-?salted|(?:way|far|much|so) (?:too )?salty|tasted salty|saltier")],
  bland: [
    words(
      "bland|tasteless|no (?:taste|flavou?r)|lack(?:ed|s|ing) (?:salt|flavou?r|taste)|insipid|flat[- ]tasting|needs salt|unsalted|cardboard",
    ),
  ],
  "sharply-sour": [
    words(
      "(?:very|too|quite|sharply|really|extremely|overly|unpleasantly|so|intensely|more|super|strongly) (?:sour|tangy|acidic|sharp)|too sharp|sharp(?:ly)? (?:taste|sour|tang|flavou?r)|vinegary|sour (?:taste|smell|tang)|acidic|boozy|smell\\w* (?:of|like) (?:alcohol|beer|vinegar|acetone)|yeasty smell|sourness",
    ),
  ],
  "tastes-good": [
    words(
      "(?:tast\\w+|flavou?r|taste) (?:was |is )?(?:fine|good|great|delicious|lovely|wonderful|nice|amazing|excellent|ok)|(?:great|good|lovely|nice|wonderful|excellent|fantastic|amazing|delicious) (?:taste|flavou?r)|delicious|tasty",
    ),
  ],
  "sides-pulled-in": [
    words(
      "(?:sides?|walls?) (?:\\w+ )?(?:pull|cav|coll?aps|suck|sank|buckl|fold|squeez|shr[aiu]nk)\\w*(?: in)?|mushroom (?:outline|shape)|key-?hole|waist|hourglass|collapsed (?:as|while|when|after) (?:it )?(?:cool|out of the oven|removed)|(?:collaps|sank|fell|shrank|cav)\\w* [^.,]*cool",
    ),
  ],
  "shrank-a-little": [words("shr(?:a|u)nk (?:a (?:little|bit)|slightly)|slight(?:ly)? shr(?:ink|unk|ank)")],
  "cut-warm": [
    words(
      "(?:cut|slic|tore into|ate|broke)\\w*[^.,]* (?:warm|hot|too (?:early|soon)|straight away|right away|immediately|fresh from the oven|before (?:it )?(?:had )?(?:cooled|cool))|could(?: not|n't) wait|still (?:warm|hot) when (?:cut|sliced)",
    ),
  ],
  "fat-ran-out": [
    words(
      "(?:fat|butter|oil|grease) (?:\\w+ )?(?:ran|leak|pool|seep|ooz|drip|melted|came)\\w*(?: out)?|(?:lot of |lots of )?(?:fat|butter) ran out|greasy|pool of butter",
    ),
  ],
  "turned-out-well": [
    words(
      "(?:turn|came|work)(?:ed)? out (?:very |really |quite |so )?(?:well|great|perfect|fine|lovely|good|beautiful|wonderful)|(?:big |great |huge |total )?success\\b|best (?:loaf|bread|ears?|one|yet|ever|i)|perfect (?:loaf|bread|result)|(?:loaf|loaves|bread|rolls) (?:was |were )?(?:fine|great|perfect|lovely|beautiful|wonderful)|very happy|pleased with|baked [^.,]*: good|light and soft",
    ),
  ],
  "sooner-was-better": [
    words(
      "(?:first|earlier|other|sooner)[^.,]* (?:loaf|loaves|batch|one|half|three|two)[^.,]*(?:fine|good|great|better|perfect|well|ok)\\b|baked (?:early|earlier|sooner|first|straight away|the same day)[^.,]*: ?(?:good|fine|great|better)|looked (?:good|fine|right|ready|perfect) at \\d+|(?:shorter|less) (?:proof|time|bulk|ferment\\w*) (?:was |gave |is )?better",
    ),
  ],
  "later-was-better": [
    words(
      "(?:longer|more) (?:proof|time|bulk|rise|ferment\\w*)[^.,]*(?:was |gave |is |did |fixed|solved|much )?(?:better|fixed|solved|worked|success|improved|helped)|(?:second|later|next|last) (?:loaf|one|half|batch|bread)[^.,]*(?:longer|later)[^.,]*(?:better|good|fine|great)|doubled the time|gave it (?:more time|longer|another)",
    ),
  ],
  "less-water-was-better": [
    words(
      "(?:less|lower|reduced|held back) (?:water|hydration)[^.,]*(?:better|fixed|solved|worked|good|fine)|at \\d\\d ?%[^.,]*(?:better|good|fine)|(?:better|fine|good) (?:at|with) (?:less water|lower hydration)",
    ),
  ],
  "weighed-was-better": [
    words(
      "(?:weigh(?:ed|ing)?|by weight|scale)[^.]*(?:better|fixed|solved|fine|good|light|differ|oz|g\\b)|dip(?:ped|ping)?(?: and level| and sweep)?[^.]*(?:dense|heavy|more flour|\\d)",
    ),
  ],
  "more-leaven-was-better": [
    words(
      "(?:more|full|fresh|new|other|another|different|extra|double|with the) (?:\\w+ )?(?:yeast|starter|levain|leaven|tablespoon)[^.,]*(?:better|light|soft|rose|fixed|solved|worked|fine|good|success)|as it used to with the old (?:starter|levain|yeast)|(?:better|rose|worked) with (?:the |my )?(?:more|old|fresh|new|other) (?:yeast|starter|levain)",
    ),
  ],
}
