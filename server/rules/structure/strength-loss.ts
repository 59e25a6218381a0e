import { isAnsweredOrLate } from '../../assess/answering.ts';
import { showHollow } from '../../assess/hollow-name.ts';
import { formulasOf, formulaWords } from '../../assess/hollow-verdict.ts';
import { hollowDefects } from '../../assess/hollows.ts';
import { reachOf } from '../../assess/reach.ts';
import { SECTION_CAUTION } from '../../assess/section-words.ts';
import { settleText } from '../../assess/settling-reading.ts';
import { type Sign, signsOf } from '../../assess/signs.ts';
import { strengthOf } from '../../assess/strength.ts';
import { listed } from '../../base/words.ts';
import { hasDamage, isReadingDamaged } from '../../facts/damage.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import type { Rule, RuleReport } from '../rule.ts';
import { settlingOf } from '../with-readings.ts';

const ACT =
  'Depending on targets and vigor: reduce the crown until the section carries the load, install a support, keep people out, or remove the tree. soundwood weigh compares the options.';

const JUDGED: ReadonlySet<string> = new Set(['exceeds', 'may exceed']);
const isHollow = ({ kind }: Sign): boolean => kind === 'cavity' || kind === 'decay' || kind === 'joined';

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, settings, today } = context;
  if (hollowDefects(tree).length === 0) return;
  const signs = signsOf(context).filter(
    sign =>
      isHollow(sign) &&
      JUDGED.has(sign.standing) &&
      !(sign.defect ? isReadingDamaged(tree, sign.defect) : hasDamage(tree, sign)),
  );
  const isNote = reachOf(tree, settings, today).targets === 'out of reach';
  for (const sign of signs) {
    const { at, subject, why, defect } = sign;
    const standing = sign.standing === 'exceeds' ? sign.standing : 'may exceed';
    // joined-unproved reports cavities that are only suspected to be connected.
    if (sign.kind === 'joined' && standing === 'may exceed') continue;
    if (isAnsweredOrLate(sign, context)) continue;
    const found = defect && strengthOf(tree, settings).defects.find(one => one.hollow.defect === defect);
    const others = found ? formulasOf(found, context).slice(1) : [];
    yield {
      at,
      grade: standing,
      ...(isNote ? { level: 'note' } : {}),
      subject,
      message: found
        ? `${showHollow(found.hollow)}: ${why}.`
        : `Between ${listed(subject.split('-'))}, which are connected: ${why}.`,
      remedy: standing === 'exceeds' || !found ? ACT : settleText(found, context),
      advice: found ? settlingOf(context, found.hollow, { standing }).advice : [],
      related: others.map(formula => ({
        start: at.start,
        end: at.end,
        message: `${formulaWords(formula)}.`,
      })),
    };
  }
}

export const strengthLoss: Rule = {
  name: 'strength-loss',
  group: 'structure',
  level: 'error',
  summary: 'a cavity or decay with more loss of bending strength than the strictest formula allows',
  sources: [
    cite('wagener-1963'),
    cite('smiley-fraedrich-1992'),
    cite('mattheck-breloer-1994'),
    cite('kane-2001'),
    cite('kane-ryan-2004'),
  ],
  explanation:
    'Checks each cavity or decay by every formula that applies and reports the strictest verdict. The other formulas are listed with it. A cavity is one finding, however many formulas it exceeds.\n\nThe section formula uses the stem inside its bark, the opening, and the void behind the sound walls or as deep as the probe went. Its section modulus in the weakest direction is compared with that of the intact stem. The limit is section-loss, which requires the same wall of a ring as Wagener’s third.\n\nd³/D³ uses D, the diameter of the wood inside the bark, and d, the diameter of the void. With an opening it is (d³ + Ro(D³ − d³))/D³, where Ro is the opening over the circumference. The limit is strength-loss. t/R is the thinnest sound wall over the radius, for a closed cavity. The limit is wall-ratio. Each formula is computed over the whole range of its readings.\n\nWhere a figure straddles its limit, the finding names the reading that would bring the cavity within every limit. Cavities proved to be connected are computed with the voids of all of them at every height between. For cavities that may be connected, see joined-unproved.\n\nNothing is reported where the cavity is addressed. A reduction addresses it if the stress is then within the limit stress-ratio. So does a support, the removal of the stem or the tree, or a follow-up that measures the cavity. Where that comes too late, mitigation-late reports it. Where targets are on record and none is in reach, the finding is a note.',
  limitations:
    'Cavities and decay with no diameter, or with neither wall nor depth measured: see not-judged. Closed or healed defects. Wood added around the cavity since it was measured.',
  appliesTo: ['defects'],
  acceptable: true,
  caution: SECTION_CAUTION,
  examples: [
    {
      title: 'A closed cavity with thin walls; a probe that found no end; a wall given as a range',
      text: `tree 601
  inspection 2026-05-04 from ground
  defect A decay #! exceeds
    diameter 30 in
    wall 3 in

tree 602
  inspection 2026-05-04 from lift
  defect A cavity #! may exceed
    on trunk at 18 ft, facing SW
    diameter 26 in
    opening 4 in wide
    depth > 5 in
  defect B decay #! may exceed
    diameter 20 in
    wall 1.5..6 in
`,
    },
    {
      title: 'Twenty of thirty inches behind a wide opening; a ring that only t/R and d³/D³ find too thin',
      text: `tree 603
  inspection 2026-05-04 from ground
  defect A cavity #! exceeds
    on trunk at 5 ft, facing W
    diameter 30 in
    opening 9.425 in wide
    depth 20 in

tree 604
  inspection 2026-05-04 from ground
  defect A decay #! exceeds
    on trunk at 3 ft
    diameter 40 in
    bark 0 in
    wall 5 in
`,
    },
    {
      title: 'Two connected cavities',
      text: `tree 605
  inspection 2026-05-04 from rope
  defect A cavity
    on trunk at 10 ft, facing N
    diameter 30 in
    bark 0 in
    opening 1 in wide
    depth 6 in
  defect B cavity
    on trunk at 12 ft, facing S
    diameter 30 in
    bark 0 in
    opening 1 in wide
    depth 6 in
  joined A, B proved
`,
    },
    {
      title:
        'Thick walls, a shallow cavity, one that healed; one that is felled in time; one out of reach of its target',
      text: `tree 606
  inspection 2026-05-04 from ground
  defect A decay
    diameter 30 in
    wall 6 in
  defect B cavity
    on trunk at 6 ft, facing W
    diameter 30 in
    opening 2 in wide
    depth 3 in
  defect C decay
    state healed
    diameter 30 in
    wall 1 in

tree 607
  inspection 2026-05-04 from ground
  defect A decay
    diameter 30 in
    wall 2 in
  prescription R1 fell
    for A

tree 608
  height 40 ft
  inspection 2026-05-04 from ground
  defect A decay #! note exceeds
    diameter 30 in
    wall 2 in
  target "Barn"
    distance 90 ft
`,
    },
  ],
  check,
};
