/** Heads that stand inside a tree, and their fields. See fields.ts. Long because it is one table, read as one. */

import type { FieldEntry, HeadEntry } from './fields.ts';
import { BECAUSE, BY, DBH, GIRTH, NOTE, TREE_HEIGHT } from './fields-top.ts';

const FROM_WHERE = '<from:ground|drone|rope|lift|platform|window>';

const PHOTO: FieldEntry = {
  word: 'photo',
  form: '<path:path> [, from <distance:length>] [, <focal:length> lens] [, <pixels:number> px wide]',
  summary:
    'A photograph: its file, the distance to the subject, and (where the file does not say) the 35 mm-equivalent focal length and the width of the picture.',
  example: 'photo photos/14-north.jpg, from 55 ft',
  many: true,
};

const SEEN: FieldEntry = {
  word: 'seen',
  form: '<date:date>',
  summary: 'The day of the inspection that saw it, where that is not the last one above.',
  example: 'seen 2026-03-14',
};

export const PRESCRIPTION_KINDS = [
  'keep',
  'watch',
  'reduce',
  'thin',
  'raise',
  'clean',
  'restore',
  'pollard',
  'cable',
  'brace',
  'prop',
  'guy',
  'investigate',
  'monolith',
  'fell',
] as const;

export const DEFECT_KINDS = [
  'cavity',
  'decay',
  'crack',
  'included bark',
  'dead wood',
  'hanger',
  'fungus',
  'canker',
  'wound',
  'loose bark',
  'woodpecker holes',
  'root decay',
  'root loss',
  'girdling root',
  'weak union',
] as const;

const PART_DIAMETER: FieldEntry = {
  word: 'diameter',
  form: '<diameter:length>',
  summary: 'Diameter above the union.',
  example: 'diameter 26 in',
};

const UNION: FieldEntry = {
  word: 'union',
  form: '<union:sound|included bark|cracked|unseen> [, with <with:name>]',
  summary: 'The union with the rest of the tree; with names the other stem of a codominant pair.',
  example: 'union included bark, with South',
};

const PART_LEAN: FieldEntry = {
  word: 'lean',
  form: '<lean:angle> [toward <toward:bearing>]',
  summary: 'Its lean from upright.',
  example: 'lean 20 deg toward N',
};

const PART_FROM: FieldEntry = {
  word: 'from',
  form: '<height:length> [, facing <facing:bearing>]',
  summary: 'Height above ground where it begins, and where it points.',
  example: 'from 9 ft, facing SE',
};

const PART_TOP: FieldEntry = {
  word: 'height',
  form: '<height:length>',
  summary: 'Height of its top above ground.',
  example: 'height 50 ft',
};

/** Of stems and limbs alike: which of them a part is called is the writer's view. */
const PART_FIELDS: readonly FieldEntry[] = [
  PART_FROM,
  PART_DIAMETER,
  PART_TOP,
  {
    word: 'length',
    form: '<length:length>',
    summary: 'Length from the union to the tip.',
    example: 'length 22 ft',
  },
  UNION,
  PART_LEAN,
  {
    word: 'crown',
    form: '(from <base:length> [, <spread:length> wide] | <spread:length> wide)',
    summary: 'A crown of its own.',
    example: 'crown from 18 ft, 30 ft wide',
  },
  NOTE,
];

const DEFECT_FIELDS: readonly FieldEntry[] = [
  {
    word: 'on',
    form: '<part:name> at <height:length> [, facing <facing:bearing>]',
    summary: 'On which stem or limb (trunk for the main stem), how high, and the bearing it faces.',
    example: 'on North at 18 ft, facing SW',
  },
  SEEN,
  {
    word: 'state',
    form: '<state:suspected|steady|increasing|healed>',
    summary: 'Whether it is only suspected, and how it develops.',
    example: 'state suspected',
  },
  {
    word: 'diameter',
    form: '<diameter:length> [(x | ×) <across:length>]',
    summary:
      'Diameter of the part at the defect over the bark; two for an oval one, the first along the bearing it faces.',
    example: 'diameter 28 x 24 in',
  },
  {
    word: 'bark',
    form: '<bark:length>',
    summary: 'Thickness of the bark, taken off all round; not stated, it is anything the species may have.',
    example: 'bark 0.5 in',
  },
  {
    word: 'opening',
    form: '(closed | <width:length> wide [, <tall:length> tall])',
    summary: 'The opening in the surface.',
    example: 'opening 9 in wide, 14 in tall',
  },
  {
    word: 'depth',
    form: '<depth:length>',
    summary: 'Depth to which a probe went in: how wide the void is there it does not say.',
    example: 'depth > 11 in',
  },
  {
    word: 'wall',
    form: '<wall:length> [at <bearing:bearing>] {, <wall:length> at <bearing:bearing>}',
    summary:
      'Thickness of the sound wall: without a bearing all round, with one there. Between bearings the wall is known the less the further apart they are; four or more give a figure to work with.',
    example: 'wall 2..4 in at SW, ~5 in at NE',
  },
  {
    word: 'length',
    form: '<length:length>',
    summary: 'Length of a crack, a wound or dead wood.',
    example: 'length 6 ft',
  },
  {
    word: 'width',
    form: '<width:length>',
    summary: 'Width of a crack, a wound or a fruiting body.',
    example: 'width 0.5 in',
  },
  {
    word: 'share',
    form: '<share:share> of <of:circumference|crown|roots|union>',
    summary: 'How much of it is affected.',
    example: 'share 30 % of circumference',
  },
  {
    word: 'species',
    form: '<species:species>',
    summary: 'The fungus or the bird that made it.',
    example: 'species Kretzschmaria deusta',
  },
  {
    word: 'closed',
    form: '<date:date> [<text:text>]',
    summary: 'The day it ceased to matter, and why.',
    example: 'closed 2026-06-01 "limb removed"',
  },
  {
    word: 'photo',
    form: PHOTO.form,
    summary: PHOTO.summary,
    example: 'photo photos/14-a.jpg, from 20 ft',
    many: true,
  },
  NOTE,
];

const PRESCRIPTION_FIELDS: readonly FieldEntry[] = [
  {
    word: 'height',
    form: '<from:length> to <to:length>',
    summary: 'Height before and after.',
    example: 'height 52 ft to 46 ft',
  },
  {
    word: 'spread',
    form: '<from:length> to <to:length>',
    summary: 'Crown spread before and after.',
    example: 'spread 58 ft to 52 ft',
  },
  {
    word: 'base',
    form: '<from:length> to <to:length>',
    summary: 'Height of the crown base before and after lifting.',
    example: 'base 14 ft to 16 ft',
  },
  {
    word: 'dose',
    form: '<dose:share>',
    summary: 'Share of the living foliage that is taken.',
    example: 'dose 18 %',
  },
  {
    word: 'cuts',
    form: '(up to <diameter:length> [, laterals <lateral:number>] | laterals <lateral:number>)',
    summary:
      'Largest cut, and the least diameter of the lateral left at a reduction cut over that of the part removed.',
    example: 'cuts up to 3 in, laterals 0.4',
  },
  {
    word: 'method',
    form: '<method:collar cuts|reduction cuts|heading cuts|flush cuts|topping|inner branches> {, <method:collar cuts|reduction cuts|heading cuts|flush cuts|topping|inner branches>}',
    summary: 'How it is cut; inner branches means stripping the inside of the crown.',
    example: 'method reduction cuts',
  },
  {
    word: 'paint',
    form: '<paint:none|wounds painted>',
    summary: 'Wound paint: none, except where a wilt makes it right.',
    example: 'paint none',
  },
  {
    word: 'for',
    form: '<cause:name> {, <cause:name>}',
    summary:
      'What it answers: defects, or a stem or limb by its name, for all that is on it and its union (trunk for the main stem).',
    example: 'for A, B',
  },
  {
    word: 'remove',
    form: '<part:name> {, <part:name>}',
    summary: 'Stems or limbs that are taken off whole.',
    example: 'remove L2',
  },
  {
    word: 'between',
    form: '<window:window>',
    summary: 'First and last day for the work.',
    example: 'between 2026-09-15..2026-11-30',
  },
  {
    word: 'priority',
    form: '<priority:immediate|high|moderate|low>',
    summary: 'How soon.',
    example: 'priority high',
  },
  {
    word: 'stages',
    form: '<stages:number>',
    summary: 'Over how many seasons, a year apart.',
    example: 'stages 2',
  },
  BECAUSE,
  { word: 'by', form: '<person:name>', summary: 'Who prescribes it.', example: 'by RV' },
  {
    word: 'dated',
    form: '<date:date>',
    summary: 'The day it was prescribed, where that is not the last inspection.',
    example: 'dated 2026-03-20',
  },
  { word: 'with', form: '<crew:name>', summary: 'The crew that shall do it.', example: 'with ROPE' },
  {
    word: 'exclusion',
    form: '<radius:length>',
    summary: 'Radius kept clear of people during the work.',
    example: 'exclusion 80 ft',
  },
  {
    word: 'piece',
    form: '(<mass:mass> | <length:length> [, <diameter:length> thick])',
    summary: 'The heaviest single piece that is lowered or lifted, by mass or by size.',
    example: 'piece 8 ft, 20 in thick',
  },
  {
    word: 'takedown',
    form: '(dismantled | by crane | whole, toward <toward:bearing>)',
    summary:
      'How a tree that is felled comes down: in pieces, lifted out by a crane, or whole in one direction.',
    example: 'takedown dismantled',
  },
  {
    word: 'logs',
    form: '<length:length> {, <length:length>}',
    summary: 'Log lengths to be cut from the butt up for salvage.',
    example: 'logs 16 ft, 12 ft',
  },
  {
    word: 'stump',
    form: '(grind to <depth:length> | leave <height:length> | leave)',
    summary: 'What becomes of the stump.',
    example: 'stump grind to 8 in',
  },
  {
    word: 'replace',
    form: '<count:number> <species:species> | none [<text:text>]',
    summary: 'Replacement planting.',
    example: 'replace 2 Quercus garryana',
  },
  {
    word: 'permit',
    form: '<permit:name> [, until <until:date>]',
    summary: 'The permit for this work.',
    example: 'permit TR-2291, until 2026-12-31',
  },
  {
    word: 'replaces',
    form: '<prescription:name>',
    summary: 'An earlier prescription that this one overtakes.',
    example: 'replaces R1',
  },
  {
    word: 'or',
    form: '<prescription:name> {, <prescription:name>}',
    summary:
      'Prescriptions that this one is an alternative to: only one of them will be done, and work on record tells which.',
    example: 'or R1',
  },
  {
    word: 'withdrawn',
    form: '<date:date> [<text:text>]',
    summary: 'The day it was withdrawn, and why.',
    example: 'withdrawn 2026-05-02 "client keeps the tree"',
  },
  NOTE,
];

export const TREE_HEADS: readonly HeadEntry[] = [
  {
    word: 'inspection',
    under: 'tree',
    form: `<date:date> from ${FROM_WHERE}`,
    summary: 'A look at the tree on one day, and from where.',
    example: 'inspection 2026-03-14 from drone',
    fields: [
      BY,
      {
        word: 'level',
        form: '<level:limited|basic|advanced>',
        summary: 'How thorough: limited visual, basic from all sides, advanced with instruments.',
        example: 'level basic',
      },
      {
        ...DBH,
        summary:
          'Diameter at breast height as measured that day, one for each stem; it counts where the tree states none.',
      },
      { ...GIRTH, summary: 'Circumference at breast height as measured that day.' },
      {
        ...TREE_HEIGHT,
        summary: 'Height of the tree as measured that day; it counts where the tree states none.',
      },
      {
        word: 'flown',
        form: '<height:length> [, permission <permission:owner|authority|none>] [, over people] [, at <time:day|night>] [, <standoff:length> stand-off]',
        summary: 'Height of the drone above ground, and whose permission there was.',
        example: 'flown 120 ft, permission owner',
      },
      {
        word: 'with',
        form: '<tool:mallet|probe|binoculars|tomograph|resistance drill|pull test|thermal camera> {, <tool:mallet|probe|binoculars|tomograph|resistance drill|pull test|thermal camera>}',
        summary: 'Instruments used.',
        example: 'with mallet, probe',
      },
      {
        word: 'unseen',
        form: '<text:text>',
        summary: 'What could not be seen, in words.',
        example: 'unseen "inside of cavities A, B and C: too dark"',
        many: true,
      },
      PHOTO,
      NOTE,
    ],
  },
  {
    word: 'stem',
    under: 'tree',
    form: '<name:name>',
    summary: 'One of several stems.',
    example: 'stem North',
    fields: PART_FIELDS,
  },
  {
    word: 'limb',
    under: 'tree',
    form: '<name:name>',
    summary: 'A limb that matters by itself.',
    example: 'limb L2',
    fields: PART_FIELDS,
  },
  {
    word: 'defect',
    under: 'tree',
    form: `<name:name> <kind:${DEFECT_KINDS.join('|')}>`,
    summary: 'A defect, as the last inspection above saw it.',
    example: 'defect A cavity',
    fields: DEFECT_FIELDS,
  },
  {
    word: 'joined',
    under: 'tree',
    form: '<defect:name> {, <defect:name>} <state:suspected|proved|excluded>',
    summary: 'Cavities that are, may be or are not one inside.',
    example: 'joined A, B suspected',
    fields: [SEEN, NOTE],
  },
  {
    word: 'target',
    under: 'tree',
    form: '<name:text>',
    summary: 'People or things that the tree or a part of it could strike.',
    example: 'target "Play lawn"',
    fields: [
      {
        word: 'distance',
        form: '<distance:length> [toward <toward:bearing>]',
        summary: 'Horizontal distance from the trunk.',
        example: 'distance 12 ft toward S',
      },
      {
        word: 'occupied',
        form: '<occupied:rare|occasional|frequent|constant>',
        summary: 'How often somebody is there.',
        example: 'occupied frequent',
      },
      {
        word: 'kind',
        form: '<kind:people|road|building|vehicles|utility|other>',
        summary: 'What it is.',
        example: 'kind people',
      },
      {
        word: 'closed',
        form: '<from:date> [, until <until:date>] , by <by:name>',
        summary: 'From which day people are kept out, until when where that is settled, and who sees to it.',
        example: 'closed 2026-05-04, until 2026-06-12, by RV',
      },
      NOTE,
    ],
  },
  {
    word: 'risk',
    under: 'tree',
    form: '<target:text> [from <cause:name>]',
    summary: 'A risk assessment for one target and one part.',
    example: 'risk "Play lawn" from A',
    fields: [
      {
        word: 'failure',
        form: '<failure:improbable|possible|probable|imminent>',
        summary: 'Likelihood of failure.',
        example: 'failure possible',
      },
      {
        word: 'impact',
        form: '<impact:very low|low|medium|high>',
        summary: 'Likelihood of impacting the target.',
        example: 'impact medium',
      },
      {
        word: 'consequences',
        form: '<consequences:negligible|minor|significant|severe>',
        summary: 'Consequences for the target.',
        example: 'consequences severe',
      },
      {
        word: 'rating',
        form: '<rating:low|moderate|high|extreme>',
        summary: 'The rating that follows.',
        example: 'rating low',
      },
      {
        word: 'within',
        form: '<within:duration>',
        summary: 'The time frame of the assessment.',
        example: 'within 1 year',
      },
      SEEN,
      {
        word: 'by',
        form: '<person:name>',
        summary: 'Who rated it, where that is not who inspected the tree that day.',
        example: 'by RV',
      },
      NOTE,
    ],
  },
  {
    word: 'conductor',
    under: 'tree',
    form: '<name:text>',
    summary: 'An electric line nearby.',
    example: 'conductor "Alley line"',
    fields: [
      {
        word: 'voltage',
        form: '<voltage:voltage>',
        summary: 'Voltage, phase to phase as the utility states it.',
        example: 'voltage 12.5 kV',
      },
      {
        word: 'distance',
        form: '<distance:length>',
        summary: 'Least distance to the crown or to the work.',
        example: 'distance 14 ft',
      },
      { word: 'height', form: '<height:length>', summary: 'Height above ground.', example: 'height 34 ft' },
      {
        word: 'dead',
        form: '<window:window>',
        summary: 'Days on which the utility has it switched off and earthed.',
        example: 'dead 2026-10-01..2026-10-03',
      },
      NOTE,
    ],
  },
  {
    word: 'nest check',
    under: 'tree',
    form: `<date:date> from ${FROM_WHERE}`,
    summary: 'A search for nests.',
    example: 'nest check 2026-03-14 from drone',
    fields: [
      BY,
      {
        word: 'stand-off',
        form: '<distance:length>',
        summary: 'Distance kept from the crown or the nest.',
        example: 'stand-off 55 ft',
      },
      {
        word: 'found',
        form: '(none | <use:active|old|unclear> [<species:species>] [at <height:length>])',
        summary: 'What was found.',
        example: 'found active Colaptes auratus at 30 ft',
        many: true,
      },
      PHOTO,
      NOTE,
    ],
  },
  {
    word: 'bat check',
    under: 'tree',
    form: `<date:date> from ${FROM_WHERE}`,
    summary: 'A search for bats and their roosts.',
    example: 'bat check 2026-05-20 from rope',
    fields: [
      BY,
      {
        word: 'found',
        form: '(none | <use:signs|roost|maternity roost|unclear> [in <defect:name>])',
        summary: 'What was found.',
        example: 'found none',
        many: true,
      },
      NOTE,
    ],
  },
  {
    word: 'view',
    under: 'tree',
    form: '<name:text>',
    summary: 'A line of sight past the tree: what shall stay hidden, or be opened.',
    example: 'view "Reading room"',
    fields: [
      {
        word: 'eye',
        form: '<eye:length> , <away:length> away',
        summary: 'Height of the eye, and its horizontal distance from the trunk.',
        example: 'eye 14 ft, 40 ft away',
      },
      {
        word: 'hide',
        form: '<object:length> , <beyond:length> beyond',
        summary: 'Bottom to top of what shall stay hidden, and its distance beyond the trunk.',
        example: 'hide 0..24 ft, 140 ft beyond',
      },
      {
        word: 'open',
        form: '<object:length> , <beyond:length> beyond',
        summary: 'Bottom to top of what shall come into view, and its distance beyond the trunk.',
        example: 'open 30..60 ft, 900 ft beyond',
      },
      NOTE,
    ],
  },
  {
    word: 'prescription',
    under: 'tree',
    form: `<name:name> <kind:${PRESCRIPTION_KINDS.join('|')}>`,
    summary: 'What is to be done.',
    example: 'prescription R1 reduce',
    fields: PRESCRIPTION_FIELDS,
  },
  {
    word: 'work',
    under: 'tree',
    form: '<prescription:name> <date:date>',
    summary: 'What was done, under which prescription, on which day.',
    example: 'work R1 2026-10-02',
    fields: [
      BY,
      { word: 'with', form: '<crew:name>', summary: 'The crew that did it.', example: 'with ROPE' },
      {
        word: 'dose',
        form: '<dose:share>',
        summary: 'Share of the living foliage that was taken.',
        example: 'dose 16 %',
      },
      {
        word: 'height',
        form: '<height:length>',
        summary: 'Height of the tree afterwards.',
        example: 'height 46 ft',
      },
      {
        word: 'spread',
        form: '<spread:length>',
        summary: 'Crown spread afterwards.',
        example: 'spread 52 ft',
      },
      {
        word: 'cuts',
        form: '(up to <diameter:length> [, laterals <lateral:number>] | laterals <lateral:number>)',
        summary: 'Largest cut made and laterals left.',
        example: 'cuts up to 3 in, laterals 0.4',
      },
      NOTE,
    ],
  },
  {
    word: 'follow-up',
    under: 'tree',
    form: '<name:name> <kind:re-inspection|climbing inspection|tomogram|resistance drilling|pull test|probe|root inspection|nest check|bat check>',
    summary: 'An investigation that is still to be made, or was.',
    example: 'follow-up F1 climbing inspection',
    fields: [
      {
        word: 'of',
        form: '<cause:name> {, <cause:name>}',
        summary: 'What it is to settle: defects, or a stem or limb by its name.',
        example: 'of A, B',
      },
      { word: 'due', form: '<date:date>', summary: 'Last day for it.', example: 'due 2026-06-30' },
      { word: 'done', form: '<date:date>', summary: 'The day it was done.', example: 'done 2026-06-12' },
      BY,
      BECAUSE,
      NOTE,
    ],
  },
  {
    word: 'accept',
    under: 'tree',
    form: '<rule:rule> [for <subject:name>]',
    summary: 'An exception on record: a finding that somebody accepts, until a day and for a reason.',
    example: 'accept reinspection-overdue',
    fields: [
      {
        word: 'until',
        form: '<until:date>',
        summary: 'The last day of the exception.',
        example: 'until 2027-03-01',
      },
      BY,
      BECAUSE,
    ],
  },
];
