import { answersTo, NOTHING_OPEN, nothingOpenFor } from '../../assess/answering.ts';
import { holdsPeople, reachOf } from '../../assess/reach.ts';
import type { TreePart } from '../../assess/sign-kinds.ts';
import { signsOf } from '../../assess/signs.ts';
import { isMoving } from '../../assess/standing.ts';
import { grouped } from '../../base/grouped.ts';
import { capital, listed } from '../../base/words.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { pointTo, type Rule, type RuleReport } from '../rule.ts';

const FAILS: Readonly<Record<TreePart, string>> = {
  'roots and ground': 'the root plate is failing, whatever the angle',
  stem: 'the stem is failing',
  union: 'the union is coming apart',
  limb: 'it may fall at any moment',
  'whole tree': 'the tree is failing',
};

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, settings, today } = context;
  const moving = signsOf(context).filter(isMoving);
  if (moving.length === 0) return;
  const reach = reachOf(tree, settings, today);
  const people = reach.open.filter(holdsPeople).map(({ name }) => `"${name.value}"`);
  const keepOut =
    people.length > 0
      ? `Keep people out of ${listed(people)} now. Below the target, write closed with the date and the person responsible.`
      : 'Keep people out of its reach now.';
  for (const [part, signs] of grouped(moving, sign => sign.part)) {
    const isAnswered = signs.every(sign => answersTo(sign, context).some(({ inTime }) => inTime));
    if (isAnswered && people.length === 0) continue;
    // Sorted, so that the order in the file does not change the finding.
    const [first, ...others] = [...signs].sort((a, b) => (a.subject < b.subject ? -1 : 1));
    const answers = signs.flatMap(sign => answersTo(sign, context));
    const planned = listed([...new Set(answers.map(({ name }) => name))]);
    const stays = answers.every(({ by }) => by === 'done')
      ? `. People are in reach, and no result of ${planned} is on record`
      : `. People are in reach until ${planned} is done`;
    const lapsed = signs.map(sign => nothingOpenFor(sign, context)).find(words => words !== NOTHING_OPEN);
    yield {
      at: first!.at,
      grade: 'stated',
      ...(reach.targets === 'out of reach' ? { level: 'warning' } : {}),
      subject: part,
      message: `${capital(listed(signs.map(({ name, why }) => `${name} (${why})`)))}: ${FAILS[part]}${planned === '' ? '. Nothing is prescribed for it' : isAnswered ? stays : `. ${capital(lapsed ?? `${planned} comes too late`)}`}.`,
      remedy: `${keepOut} Have a qualified person assess it the same day.${part === 'roots and ground' ? ' Do not climb it.' : ''}`,
      related: others.map(({ at, name }) => pointTo(at, `${capital(name)}.`)),
    };
  }
}

export const movement: Rule = {
  name: 'movement',
  group: 'mitigation',
  level: 'error',
  summary: 'a part of the tree that is failing now, with people in reach or no timely action',
  sources: [cite('practice'), cite('bmp-risk-2017')],
  explanation:
    'Some signs mean failure now, whatever the figures show: a new or increasing lean, heaving or cracking soil at the root collar, an opening crack, a cracked or separating union, a hanger. A tree that grew with a lean has built the roots and wood to support it. A tree that starts to lean is losing its anchorage, so the change counts, not the angle. Keep people out of reach first, before any question of season, nest or permit, and whatever else is planned.\n\nNothing is reported once every target with people in reach is closed by a named person and the sign is addressed in time. Roots and ground are addressed by felling, guying or a root crown excavation, not by pruning. A union is addressed by a cable, a brace or removal of the stem, and a limb by its removal. Where targets are on record and none is in reach, it is a warning.',
  limitations:
    'A steady or corrected lean, firm ground, and cracks that are not opening: other rules check those.',
  appliesTo: ['lean', 'condition', 'parts', 'defects'],
  acceptable: false,
  caution: 'A record cannot show how long a moving tree will stand. Keep away until it has been assessed.',
  examples: [
    {
      title:
        'New after a storm; heaving and increasing, reported once; a hanger over a path; a union that is cracked',
      text: `tree 751
  lean 6 deg toward SW, new #! error stated

tree 752
  lean 8..11 deg toward NE, increasing #! error stated
  soil cracked

tree 753
  inspection 2026-05-04 from ground
  defect H hanger #! error stated
    diameter 5 in
  target "Path"
    distance 6 ft
    occupied frequent

tree 754
  stem East
    union cracked, with West #! error stated
  stem West
    union sound, with East
`,
    },
    {
      title: 'A lean and a crack that increased by their readings, whatever the record calls them',
      text: `tree 761
  inspection 2022-05-04 from ground
    lean 5 deg toward N, steady
  defect A crack
    on trunk at 5 ft
    length 20 in
  inspection 2026-05-06 from ground
    lean 9 deg toward N, steady #! error stated
  defect A crack #! error stated
    length 26 in
`,
    },
    {
      title: 'Pruning does not stabilize a root plate; far from all targets',
      text: `tree 755
  height 50 ft
  soil heaving #! error stated
  inspection 2026-05-04 from ground
  prescription R1 reduce
    between 2026-06-01..2026-06-02
    dose 15 %

tree 756
  height 50 ft
  soil heaving #! warning stated
  target "Barn"
    distance 200 ft
`,
    },
    {
      title: 'Steady, firm, gone; felled tomorrow with the lawn closed',
      text: `tree 757
  lean 12 deg toward S, steady
  soil firm

tree 758
  lean 20 deg, new
  felled 2026-02-02

person RV "Ruth Varga"
  qualified consulting arborist

tree 759
  lean 20 deg, new
  target "Lawn"
    distance 10 ft
    closed 2026-05-30, by RV
  prescription R1 fell
    between 2026-06-02..2026-06-03
`,
    },
  ],
  check,
};
