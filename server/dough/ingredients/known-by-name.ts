import { allergensNamed } from "./allergen-lists.ts"
import type { CountsAs } from "./counts-as.ts"
import type { Role } from "./ingredient.ts"
import { type Named, nameAndSynonyms } from "./names.ts"

/** Things whose composition and weights are not tabled here: what they are, and which allergens they carry. */
export const knownByName = (): Named[] =>
  table
    .trim()
    .split("\n")
    .map((line) => line.split("|").map((cell) => cell.trim()) as [string, Role, CountsAs, string, string])
    .map(([slug, role, countsAs, allergens, names]) => ({
      slug,
      ...nameAndSynonyms(names),
      role,
      countsAs,
      per100g: {},
      portions: [],
      allergens: allergensNamed(allergens),
      source: "known by name only",
    }))

// The allergens of what follows: what each is made of by its own name; for malt, triticale, pine nut, coconut, chestnut,
// lecithin, lupin, dried fruit, wine and malt vinegar the lists named in allergen-lists.ts. "?" is "only in some packs":
// common practice, no published source.
const table = `
starter            | leaven    | starter | wheat?        | starter; [whole wheat/wholemeal] starter; [sourdough/wheat/white/levain/liquid/stiff/mother/] [starter/levain/leaven/mother/sourdough/discard]; sourdough [starter/discard] [discard/]; lievito madre; madre
starter-rye        | leaven    | starter | rye           | rye starter; liquid rye starter; rye [sourdough/levain/leaven/sour]; rye sourdough starter
flour-spelt        | flour     | flour   | wheat         | spelt flour; [white/light/refined] spelt [flour/]; spelt
flour-wheat-other  | flour     | flour   | wheat         | wheat flour of another kind; wheat flour; manitoba; [manitoba/atta/maida/durum/durum wheat/pastry/high gluten/brown/strong brown/wheat bread/soft wheat/high extraction] flour; [very/extra] strong [white/] [bread/] flour; wheat; durum [wheat/]; atta; maida; semola rimacinata; rimacinata; bolted flour; sprouted wheat flour
flour-wheat-typed  | flour     | flour   | wheat         | white wheat flour by type; [type/tipo/] [00/0/405/550] [flour/]; [t45/t55/t65/t80/t110/t150] [flour/]; [type/t] [45/55/65/80] [flour/]; wheat flour [type/] [405/550/812/1050/t45/t55/t65/t80]; [type/] [812/1050] wheat flour
flour-ancient      | flour     | flour   | wheat         | einkorn, emmer or khorasan flour; einkorn flour; [einkorn/emmer/farro/khorasan] [wheat/] [flour/]; khorasan wheat; kamut [flour/]; [wholemeal/whole] [einkorn/emmer/khorasan] flour
flour-triticale    | flour     | flour   | wheat rye     | triticale flour; triticale
flour-rice-brown   | flour     | flour   |               | brown rice flour; glutinous rice flour; sweet rice flour
flour-other-cereal | flour     | flour   |               | millet, teff or sorghum flour; millet flour; [teff/sorghum/millet/quinoa/amaranth] flour
flour-corn         | inclusion | other   |               | corn flour; cornflour
starch             | inclusion | other   |               | starch; corn starch; [corn/maize/potato/tapioca/cassava/rice] starch; cornstarch; [tapioca/cassava/arrowroot] [flour/]; arrowroot
starch-wheat       | inclusion | other   | wheat         | wheat starch
flour-chickpea     | inclusion | other   |               | pulse flour; chickpea flour; gram flour; besan; pea flour; lentil flour
flour-soy          | inclusion | other   | soy           | soy; soy flour; soybean [flour/]; tofu; lecithin; soy lecithin
flour-lupin        | inclusion | other   | lupin         | lupin flour; lupin; lupine flour
flour-chestnut     | inclusion | other   |               | chestnut; chestnut flour; chestnut; chestnut puree
coconut            | inclusion | other   |               | coconut; [desiccated/shredded/grated/] coconut [flake/flour/]; coconut [milk/cream/water/sugar/butter]
polenta            | inclusion | other   |               | maize; polenta; corn grits; grits; masa harina; sweetcorn
wheat-grain        | inclusion | other   | wheat         | wheat, whole or broken; wheat berries; [whole/] wheat [grain/berry/kernel/flake]; [cracked/kibbled/rolled/malted] wheat; malted wheat flake; bulgur; bulgur wheat; freekeh; couscous
rye-pieces         | inclusion | other   | rye           | rye, broken or rolled; rye flakes; rye [flake/chop]; [cracked/kibbled/rolled/chopped] rye
spelt-pieces       | inclusion | other   | wheat         | spelt, broken or rolled; spelt flakes; [cracked/rolled] spelt
barley-grain       | inclusion | other   | barley        | barley; [pearl/pearled/pot] barley; barley [flake/grain/groat]
oat-other          | inclusion | other   | oats          | oats in another form; oatmeal; oat [bran/milk/drink]; [pinhead/coarse/medium/fine/steel cut] [oatmeal/oats]
buckwheat          | inclusion | other   |               | buckwheat; buckwheat [groat/flake]
rice               | inclusion | other   |               | rice or millet; rice; [cooked/white/brown] rice; rice [milk/drink]; quinoa; millet; amaranth
malt               | inclusion | other   | barley        | malt; malt flour; [diastatic/] malt [flour/powder]; [diastatic/non diastatic] malt; malt; malted barley [flour/]; roasted barley malt
seitan             | inclusion | other   | wheat         | wheat food; seitan; breadcrumb; bread crumb; panko
bread-old          | inclusion | other   | wheat? rye?   | old bread; [stale/toasted/leftover] bread; altus
pasta-water        | liquid    | other   | wheat         | pasta water
potato-mashed      | inclusion | other   | milk?         | mashed potato
egg-noodles        | inclusion | other   | wheat egg     | egg noodles
egg-wash           | egg       | other   | egg milk?     | egg wash; eggwash
egg-other          | egg       | other   | egg           | egg in another form; duck egg; quail egg; dried egg; egg powder; [dried/powdered/liquid/pasteurised] egg white; meringue powder; liquid egg
mayonnaise         | fat       | other   | egg mustard?  | mayonnaise; mayo
milk-buffalo       | liquid    | other   | milk          | milk of another kind; buffalo milk; lactose free milk
cream-other        | liquid    | other   | milk          | cream of another kind; double cream; [clotted/whipped] cream; cream; creme fraiche; creme
dairy-other        | liquid    | other   | milk          | dairy of another kind; kefir; whey; [whey/casein] powder; skyr; quark; labneh; ayran; custard; milk kefir
butter-brown       | fat       | other   | milk          | butter of another kind; browned butter; brown butter; [european/cultured/lactose free] butter
cheese             | inclusion | other   | milk          | cheese; [mozzarella/feta/gruyere/emmental/gouda/comte/manchego/halloumi/pecorino/mascarpone/goat/blue/hard/cottage/swiss/provolone] [cheese/]; parmigiano [reggiano/]
almond-other       | inclusion | other   | almond        | almond product; almond milk; almond [milk/drink/butter/paste/oil/extract]; marzipan; frangipane; unsweetened almond milk
hazelnut-other     | inclusion | other   | hazelnut      | hazelnut product; hazelnut milk; hazelnut [milk/drink/butter/paste/oil]
walnut-oil         | fat       | other   | walnut        | walnut oil
black-walnut       | inclusion | other   | blackwalnut   | black walnut
cashews            | inclusion | other   | cashew        | cashews; [toasted/roasted/] cashew [nut/]; cashew [milk/butter]
pistachios         | inclusion | other   | pistachio     | pistachios; [toasted/roasted/shelled/] pistachio [nut/]; pistachio paste
macadamias         | inclusion | other   | macadamia     | macadamias; macadamia [nut/]; queensland nut
brazil-nuts        | inclusion | other   | brazil        | Brazil nuts
pine-nuts          | inclusion | other   | pine          | pine nuts; [toasted/roasted/] pine [nut/kernel]; pinenut
nuts               | inclusion | other   | nut peanut?   | nuts; [mixed/toasted/roasted] nut; nut
praline            | inclusion | other   | nut milk?     | nut confectionery; praline; nougat; gianduja
peanuts            | inclusion | other   | peanut        | peanuts; [roasted/salted/] [peanut/groundnut/monkey nut]; peanut butter; [peanut/groundnut] paste
peanut-oil         | fat       | other   | peanut?       | peanut oil; groundnut oil; arachis oil
sesame-other       | inclusion | other   | sesame        | sesame product; tahini; [toasted/] sesame oil; sesame paste; halva; zaatar
oil-other          | fat       | other   |               | oil of another plant; corn oil; [corn/avocado/grapeseed/flaxseed/linseed/rice bran/safflower/palm] oil; cocoa butter
butter-plant       | fat       | other   | soy? nut?     | plant butter; vegan butter; [plant/plant based/vegan/dairy free] [butter/spread/block]
seeds              | inclusion | other   | sesame?       | seeds; seed; [mixed/toasted mixed] seed; seed mix
poppy-seed         | inclusion | other   |               | seed of another kind; poppy seeds; [blue/white/] poppy seed; hemp seed; [psyllium/psyllium seed] husk; psyllium
mustard            | inclusion | other   | mustard       | mustard; [dijon/wholegrain/english] mustard; mustard [seed/powder]
celery             | inclusion | other   | celery        | celery; celery [seed/salt]; celeriac
lemon              | inclusion | other   |               | citrus fruit; lemon zest; [lemon/orange/lime] [zest/rind/]; lemon; orange; lime
juice              | liquid    | other   |               | fruit juice; lemon juice; [lemon/orange/lime/apple] juice; apple sauce; applesauce
dried-fruit        | inclusion | other   | sulphites?    | dried fruit; sultanas; sultana; [zante/dried/] currant; golden raisin; dried [apricot/cranberry/fig/fruit/cherry/apple/pear/date]; mixed [dried/] fruit; [candied/mixed/citrus/orange/lemon] peel; [candied/] [orange/lemon/mixed] peel; [candied/glace] cherry; date; prune; fig
fruit              | inclusion | other   |               | fruit; blueberries; [blueberry/raspberry/strawberry/apple/pear/cherry/peach/plum/mango/cranberry/apricot]; frozen berries
vegetable          | inclusion | other   |               | vegetable; onion; [red/white/spring/] onion; shallot; garlic; garlic clove; clove of garlic; leek; carrot; beetroot; beet; courgette; zucchini; spinach; kale; mushroom; [bell/red/green/chilli/chili/jalapeno] pepper; eggplant; aubergine; butternut; butternut squash; squash; tomato; tomato [paste/puree]; pumpkin butter; apple butter; cherry tomato
olive              | inclusion | other   |               | olives; [black/green/kalamata] olive; caper
tomato-dried       | inclusion | other   | sulphites?    | dried tomato; [sun dried/sundried] tomato
herb-and-spice     | inclusion | other   |               | herb or spice; cinnamon; rosemary; thyme; oregano; basil; parsley; dill; sage; chive; coriander; mint; [caraway/fennel/nigella/cumin/coriander/anise/aniseed/cardamom/fenugreek] [seed/]; cumin; cardamom [pod/]; cinnamon [stick/]; nutmeg; clove; allspice; [black/white/cayenne] pepper; pepper; paprika; turmeric; saffron; ginger; mixed spice; [chilli/chili/red pepper] flake; vanilla; vanilla [extract/essence/bean/pod/paste]; mahleb
sugar-other        | sugar     | other   |               | sugar of another kind; demerara sugar; [demerara/turbinado/raw/raw cane/pearl/nib/palm/date/jaggery/vanilla/preserving] sugar; demerara; turbinado; sugar nib; jaggery; golden [caster/granulated] sugar
syrup-other        | sugar     | other   |               | syrup of another kind; golden syrup; [golden/agave/date/rice/dark corn/glucose/sugar/invert] syrup; black treacle; treacle; blackstrap molasses; glucose; dextrose; fructose; trehalose; inulin
chocolate          | inclusion | other   | milk? soy?    | dark chocolate; [dark/plain/bittersweet/semisweet/] chocolate [chip/drop/chunk/]; cacao nib; cocoa nib
chocolate-milk     | inclusion | other   | milk soy?     | milk chocolate; [white/milk] chocolate [chip/]
stout              | liquid    | other   | barley wheat? | beer of another kind; stout; [wheat/dark] beer; porter
wine               | liquid    | other   | sulphites?    | wine; [red/white] wine; cider; sherry; marsala
spirit             | liquid    | other   |               | spirits; rum; [dark/] rum; brandy; kirsch; orange liqueur
vinegar            | liquid    | other   |               | vinegar; [white/spirit/distilled/rice] vinegar
vinegar-wine       | liquid    | other   | sulphites?    | wine vinegar; [red/white] wine vinegar; balsamic vinegar; balsamic
vinegar-malt       | liquid    | other   | barley sulphites? | malt vinegar
water-of-something | liquid    | other   |               | flavoured water; rose water; rosewater; orange [blossom/flower] water; coffee; espresso; instant coffee; tea; potato water
leaven-other       | leaven    | other   |               | raising salt; cream of tartar; ammonium bicarbonate; baker ammonia; potash
yeast-not-for-dough | inclusion | other  |               | nutritional yeast
yeast-extract      | inclusion | other   | barley? wheat? celery? | yeast extract
improver           | inclusion | other   | wheat? soy? barley? | bread improver; dough [improver/conditioner/enhancer]
additive           | inclusion | other   |               | additive; ascorbic acid; vitamin c; citric acid; xanthan gum; guar gum; xanthan; gelatin; gelatine; agar; agar agar; lye; food lye; sodium hydroxide; caustic soda; pectin; activated charcoal
fish               | inclusion | other   | fish          | fish; anchovy; anchovies; smoked salmon; tuna; salmon
shellfish          | inclusion | other   | crustacean    | shellfish; prawn; shrimp; crab
mollusc            | inclusion | other   | mollusc       | molluscs; mussels; mussel; squid; oyster
meat               | inclusion | other   |               | meat; bacon; lardons; lardon
`
