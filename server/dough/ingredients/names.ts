import type { Ingredient } from "./ingredient.ts"

/** An ingredient, and every other name it goes by. */
export type Named = Ingredient & { synonyms: string[] }

/** Splits "name; other [name/word]" as the tables write it. */
export function nameAndSynonyms(cell: string) {
  const [name, ...synonyms] = cell.split("; ")
  return { name: name!, synonyms }
}

/** "[whole/] milk" to "whole milk" and "milk": what stands in brackets is a choice, and may be nothing. */
export function spelledOut(pattern: string): string[] {
  const choice = pattern.match(/\[([^[\]]*)\]/)
  if (!choice) return [pattern.replace(/ +/g, " ").trim()]
  return choice[1]!.split("/").flatMap((taken) => spelledOut(pattern.replace(choice[0], taken)))
}

/**
 * What each row of the release is called here, and its usual other names. Where a plain word means different things in
 * different places one is taken: "milk" is whole milk, "flour" and "plain flour" are all-purpose wheat flour, "sugar" is
 * white, granulated or caster, "butter" is unsalted, "salt" is fine table salt, "egg" is a large one, "rye flour" is
 * medium rye, "oats" are rolled, "yeast" is active dry (nobody spoons fresh yeast), "buttermilk" is low fat, "yogurt" is
 * plain and of whole milk, "condensed milk" is sweetened, "milk powder" is skimmed, "raisins" are not packed into a cup.
 * Semi-skimmed milk (1.5 to 1.8 % fat in Europe) is taken as 2 % milk. Common practice, no published source.
 */
export const namesInSr28: Record<string, string> = Object.fromEntries(
  `
milk-whole-3.25 | whole milk; milk; [full fat/full cream/cow] milk; whole cow milk; milk whole 3.25%
milk-2pct | 2% milk; 2% fat milk; [reduced fat/semi skim] milk
milk-skim | skimmed milk; [fat free/nonfat/non fat] milk
milk-1pct | 1% milk; 1% fat milk; [low fat/lowfat] milk
buttermilk-lowfat | buttermilk; [cultured/low fat/lowfat] buttermilk
buttermilk-whole | whole buttermilk; full fat buttermilk
cream-heavy | heavy cream; whipping cream; heavy whipping cream
cream-half-and-half | half and half; half and half cream
sour-cream | sour cream; soured cream
butter-unsalted | unsalted butter; butter; butter without salt
butter-salted | salted butter; slightly salted butter; butter with salt
butter-oil-ghee | ghee; clarified butter; butter oil
egg-whole | whole egg; egg; hen egg; medium egg; large egg; small egg
egg-white | egg white; white of [an/] egg
egg-yolk | egg yolk; yolk
honey | honey; [runny/clear/set/raw/liquid] honey
molasses | molasses
maple-syrup | maple syrup
malt-syrup | malt syrup; malt extract; barley malt [syrup/extract]; liquid malt [extract/]
corn-syrup-light | light corn syrup; corn syrup
olive-oil | olive oil; [extra/] virgin olive oil; evoo; light olive oil
canola-oil | canola oil; rapeseed oil
sunflower-oil | sunflower oil
soybean-oil | soybean oil; soy oil
coconut-oil | coconut oil; virgin coconut oil
lard | lard; pork lard
shortening | vegetable shortening; shortening
margarine-80-stick | margarine; [stick/baking/block] margarine
sugar-granulated | granulated sugar; sugar; [white/] [granulated/caster/superfine] sugar; white sugar; caster; [cane/beet] sugar
sugar-brown | brown sugar; [light/dark] [soft/] brown sugar; soft brown sugar; [light/dark/] muscovado [sugar/]
sugar-powdered | powdered sugar; icing sugar; confectioner sugar
flour-bread-enriched | bread flour; [strong/] [white/] bread flour; strong [white/] flour; strong white; baker flour
flour-bread-unenriched | bread flour, unenriched
flour-all-purpose-bleached | all-purpose flour, bleached; bleached flour
flour-all-purpose-unbleached | all-purpose flour; [unbleached/] [all purpose/ap/plain] [white/] flour; [unbleached/white/] flour; all purpose; [unbleached/] ap; plain white
flour-all-purpose-unenriched | all-purpose flour, unenriched
flour-whole-wheat | whole wheat flour; [strong/] [white/] [whole wheat/wholemeal] [bread/] flour; whole wheat; ww; ww flour; [strong/] wholemeal; [wholegrain/wholemeal] wheat flour; wholegrain flour; graham flour
flour-whole-wheat-soft | soft whole wheat flour; whole wheat pastry flour; soft wholemeal flour
flour-cake | cake flour
flour-self-rising | self-raising flour; self raising [white/] [flour/]
flour-rye-dark | dark rye flour; dark rye
flour-rye-medium | medium rye flour; rye flour; rye; medium rye
flour-rye-light | light rye flour; [light/white] rye [flour/]
rye-grain | rye grain; [whole/] rye [grain/berry/kernel]
spelt-grain-uncooked | spelt grain; [whole/] spelt [grain/berry/kernel]; uncooked spelt
semolina-unenriched | semolina; [durum/durum wheat/fine/coarse/] semolina [flour/]; semola
flour-buckwheat | buckwheat flour; [whole/wholegrain] buckwheat flour
flour-rice-white | white rice flour; rice flour
flour-corn-whole | whole-grain corn flour; [wholegrain/yellow] corn flour
cornmeal-whole-yellow | cornmeal; [yellow/] [wholegrain/] [cornmeal/corn meal/maize meal]
flour-barley | barley flour; barley meal
flour-oat | oat flour
oats | oat groats; whole oats; oat [grain/kernel]
oats-rolled-dry | rolled oats; oats; [porridge/quick/old fashioned/jumbo] [rolled/] oats; oat flake; quick cooking oats
wheat-bran | wheat bran; bran
wheat-germ | wheat germ; wheatgerm
vital-wheat-gluten | vital wheat gluten; vital gluten; wheat gluten; gluten
potato-raw | potato; raw potato
potato-boiled-in-skin-flesh | potato boiled in its skin; potato [boiled/cooked] in skin
potato-boiled-without-skin | boiled potato; [cooked/steamed] potato
potato-flakes-dry | potato flakes; [dried/instant] potato flakes; instant [mashed/mash] potato [flake/]
potato-flour | potato flour
yogurt-whole | plain yogurt; yogurt; [natural/plain/] [whole milk/full fat/whole/] yogurt
yogurt-lowfat | low-fat yogurt; [low fat/lowfat] [plain/natural] yogurt; lowfat yogurt
yogurt-skim | fat-free yogurt; [fat free/nonfat/non fat/skim milk] [plain/natural/] yogurt
yogurt-greek-nonfat | fat-free Greek yogurt; [fat free/nonfat/non fat/0%] greek yogurt
yogurt-greek-whole | Greek yogurt; [plain/whole milk/full fat/whole] greek yogurt
water-tap | USDA tap water
water-municipal | USDA municipal water
salt | table salt; salt; fine [sea/] salt; [cooking/iodised/common] salt; fine table salt
yeast-active-dry | active dry yeast; dried yeast; yeast; dried [active/baker] yeast; baker yeast
yeast-compressed | fresh yeast; [compressed/cake/wet/fresh baker/compressed baker] yeast; yeast cake
baking-powder | baking powder; double acting baking powder
baking-soda | baking soda; bicarbonate of soda; bicarbonate; bicarb; bicarb soda; sodium bicarbonate
milk-dry-nonfat | skimmed milk powder; [skim/nonfat/non fat/] [milk powder/dried milk/powdered milk/dried milk powder]
milk-dry-nonfat-instant | instant skimmed milk powder; instant [skim/nonfat/non fat/] [milk powder/dried milk/powdered milk]
milk-dry-whole | whole milk powder; [whole/full fat] [milk powder/dried milk/powdered milk/dried milk powder]
milk-evaporated | evaporated milk
milk-condensed-sweetened | sweetened condensed milk; condensed milk
buttermilk-dried | dried buttermilk; buttermilk powder; powdered buttermilk; dried buttermilk powder
milk-goat | goat's milk; goat milk
sesame-seed | sesame seeds; [white/black/toasted/roasted/] sesame [seed/]; toasted white sesame seed
sunflower-seed | sunflower seeds; [toasted/roasted/hulled/] sunflower [seed/kernel/seed kernel]
flaxseed | flaxseed; flax; flax seed; [golden/brown/] [linseed/flaxseed]; [flaxseed/linseed/flax] meal
pumpkin-seed | pumpkin seeds; [toasted/roasted/green/] pumpkin [seed/kernel]; pepita
chia-seed | chia seeds; chia; [white/black] chia seed
walnuts | walnuts; [toasted/roasted/english/] walnut [half/halves/pieces/]
almonds | almonds; [toasted/roasted/flaked/slivered/blanched/whole/whole blanched/natural/ground/] almond; almond [flour/meal/flake]
pecans | pecans; [toasted/roasted/] pecan [nut/half/halves/pieces/]
hazelnuts | hazelnuts; [toasted/roasted/blanched/whole/ground/] [hazelnut/filbert/cobnut]; hazelnut [flour/meal]
raisins | raisins; [seedless/dark] raisin
cocoa | cocoa powder; cocoa; [unsweetened/dutched/dutch process] cocoa [powder/]
ricotta-whole | ricotta; [whole milk/] ricotta [cheese/]
cream-cheese | cream cheese; [full fat/plain] cream cheese
cheddar | cheddar; [mature/mild/] cheddar [cheese/]
parmesan-grated | grated parmesan; parmesan [cheese/]
pumpkin-raw | raw pumpkin; pumpkin; pumpkin flesh
pumpkin-canned | pumpkin purée; [canned/tinned] pumpkin [puree/]
sweet-potato-raw | sweet potato; raw sweet potato
banana-raw | banana; mashed banana
beer-regular | beer; lager; ale
soymilk | soy milk; soymilk; [unsweetened/] soy [milk/drink]
vinegar-cider | cider vinegar; apple cider vinegar
`
    .trim()
    .split("\n")
    .map((line) => line.split(" | ") as [string, string]),
)
