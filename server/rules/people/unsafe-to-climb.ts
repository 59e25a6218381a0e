import { crewCalled } from '../../assess/called.ts';
import { unsafeToClimb } from '../../assess/climbing.ts';
import { comesDownWhole } from '../../assess/fall-zone.ts';
import { safetyStandard } from '../../assess/methods.ts';
import { jobName, openWork } from '../../assess/prescriptions.ts';
import { capital, listed } from '../../base/words.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { type Rule, type RuleReport, spanOf } from '../rule.ts';

/** Investigating and guying do not involve climbing. */
const isClimbed = (kind: string): boolean => kind !== 'investigate' && kind !== 'guy';

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, crew: crewNamed } = context;
  const open = openWork(tree);
  if (open.length === 0) return;
  const all = unsafeToClimb(context);
  const sure = all.filter(({ isSure }) => isSure);
  const bans = sure.length > 0 ? sure : all;
  if (bans.length === 0) return;
  for (const prescription of open) {
    const { kind, crew: id, takedown } = prescription;
    const crew = id && crewNamed(id.value);
    if (crew?.crane || crew?.lift || !isClimbed(kind.value) || takedown?.how === 'whole') continue;
    // A crew that is nowhere on record is for unknown-reference to say.
    if (id && !crew) continue;
    const mayStay = comesDownWhole(prescription) || !bans.some(({ isWhole }) => isWhole);
    yield {
      at: id ? spanOf(id) : prescription.at,
      grade: 'stated',
      level: sure.length === 0 ? 'note' : mayStay ? 'warning' : 'error',
      subject: prescription.id.value,
      message: `${capital(jobName(prescription))} ${crew ? `is assigned to ${crewCalled(id!.value, crew)}, with neither aerial lift nor crane` : 'names no crew'}. ${sure.length === 0 ? 'Whether this tree is safe to climb has to be settled first' : 'Do not climb, tie in to or rig from this tree'} (${safetyStandard(context.settings)}): ${listed(bans.map(({ reason }) => reason))}.`,
      remedy: `Assign a crew with an aerial lift or a crane that stands off the tree${kind.value === 'fell' ? '. Or fell it whole from the ground where there is room (takedown whole, toward, with the bearing)' : ''}.`,
    };
  }
}

export const unsafeToClimbRule: Rule = {
  name: 'unsafe-to-climb',
  group: 'people',
  level: 'error',
  summary: 'a rope crew alone on a tree that must not be climbed',
  sources: [cite('z133'), cite('practice')],
  explanation:
    'Some trees must not be climbed, tied into or rigged from: dead trees, trees with a moving root plate, and trees whose stem has lost more strength than the limits allow. The rule reports open work on such a tree where no crew is named, or where the named crew has neither an aerial lift nor a crane on record. Nothing is reported where the takedown states felling whole from the ground. It is a warning where the takedown method is not stated, and for a cavity or decay above the base of the stem. It is a note where a limit is only possibly exceeded. Work orders state it in every case.',
  limitations: 'Crews with an aerial lift or a crane. Prescriptions that name a crew which is not on record.',
  appliesTo: ['prescriptions'],
  acceptable: false,
  caution: 'The climber decides on site whether the tree is safe to climb, and may refuse.',
  examples: [
    {
      title: 'A dead ash to be taken down by rope; felled, method not stated',
      text: `person JM "Jo Marsh"
  qualified climbing arborist

crew ROPE "Rope crew"
  members JM
  rope 400 lb

tree 61
  vigor dead
  prescription R1 fell
    takedown dismantled
    with ROPE #! error stated

tree 62
  vigor dead
  prescription R1 fell
    with ROPE #! warning stated
`,
    },
    {
      title: 'With a lift; from the ground; alive',
      text: `crew ROPE "Rope crew"
  rope 400 lb

crew LIFT "Lift crew"
  lift 60 ft

tree 63
  vigor dead
  prescription R1 fell
    takedown dismantled
    with LIFT

tree 64
  vigor dead
  prescription R1 fell
    takedown whole, toward N
    with ROPE

tree 65
  vigor fair
  prescription R1 clean
    with ROPE
`,
    },
  ],
  check,
};
