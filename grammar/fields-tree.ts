/** Heads that stand inside a tree, and their fields. See entries.ts. Long because it is one table, read as one. */

import type { FieldEntry, HeadEntry } from './entries.ts';
import { BECAUSE, BY, DBH, EFFORT, GIRTH, NOTE, READ_ANEW, TREE_HEIGHT } from './fields-top.ts';

const FROM_WHERE = '<from:ground|drone|rope|lift|platform|window>';

const PHOTO: FieldEntry = {
  word: 'photo',
  form: '<path:path> [, from <distance:length>] [, toward <toward:bearing>] [, <focal:length> lens] [, <pixels:number> px wide]',
  summary:
    'A photograph: its file, the distance to the subject, and, if not in the file, where the camera looked, the 35 mm-equivalent focal length and the width in pixels.',
  example: 'photo photos/14-north.jpg, from 55 ft',
  many: true,
  group: 'photos',
};

const SEEN: FieldEntry = {
  word: 'seen',
  form: '<seen:date>',
  summary: 'The date of the inspection that recorded it, if not the last one above.',
  example: 'seen 2026-03-14',
  inspected: true,
  happened: 'inspection of',
};

/** Of what stands at a tree and may be gone one day. */
const removed = (summary: string, why: string): FieldEntry => ({
  word: 'removed',
  form: '<removed:date> [<removedBecause:text>]',
  summary,
  example: `removed 2026-04-02 "${why}"`,
  happened: 'removal of',
  ends: true,
});

const PRESCRIPTION_KINDS = [
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
  'trench',
] as const;

const PART_DIAMETER: FieldEntry = {
  word: 'diameter',
  form: '<diameter:length>',
  summary: 'Diameter above the union.',
  example: 'diameter 26 in',
};

const UNION: FieldEntry = {
  word: 'union',
  form: '<union:sound|included bark|cracked|unseen> [, <inclusion:occluded|at the apex>] [, with <unionWith:part>]',
  summary:
    'Its union with the rest of the tree: where included bark lies, overgrown by wood (occluded) or open to the top (at the apex); with names the other stem of a codominant pair.',
  example: 'union included bark, with South',
};

const PART_LEAN: FieldEntry = {
  word: 'lean',
  form: '<lean:angle> [toward <toward:bearing>]',
  summary: 'Its lean from vertical.',
  example: 'lean 20 deg toward N',
};

const PARENT: FieldEntry = {
  word: 'parent',
  form: '<parent:length>',
  summary: 'Diameter of the stem or limb it grows from, just above the union.',
  example: 'parent 20 in',
};

const FOLIAGE: FieldEntry = {
  word: 'foliage',
  form: '<foliage:along its length|at the end only>',
  summary: 'Where its foliage is: at the end only, after the inner branches were removed (lion-tailing).',
  example: 'foliage at the end only',
};

/** Of a cable, a brace, a prop or a guy, in place or prescribed. */
const SUPPORT_FIELDS: readonly FieldEntry[] = [
  {
    word: 'fixed',
    form: 'at <fixed:length> [, <slope:angle> from horizontal]',
    summary:
      'Height above ground at which a support holds the stem or limb, and its slope; any slope up to 30 deg if not stated.',
    example: 'fixed at 40 ft',
  },
  {
    word: 'rated',
    form: '<rated:force>',
    summary: 'Working load of a support: that of its weakest piece, terminations and bolts included.',
    example: 'rated 2200 lbf',
  },
  {
    word: 'breaking',
    form: '<breaking:force>',
    summary:
      'Breaking load of the weakest piece of a support; it may carry a fifth of it if no working load is stated.',
    example: 'breaking 11200 lbf',
  },
];

const PART_FROM: FieldEntry = {
  word: 'from',
  form: '<from:length> [, facing <facing:bearing>]',
  summary: 'Height above ground at which it begins, and its direction.',
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
  SEEN,
  PART_FROM,
  PART_DIAMETER,
  PART_TOP,
  {
    word: 'length',
    form: '<length:length>',
    summary: 'Length from union to tip.',
    example: 'length 22 ft',
  },
  UNION,
  PARENT,
  PART_LEAN,
  FOLIAGE,
  {
    word: 'crown',
    form: '(from <crownBase:length> [, <crownSpread:length> wide] | <crownSpread:length> wide)',
    summary: 'A crown of its own.',
    example: 'crown from 18 ft, 30 ft wide',
  },
  removed('The date it was cut or broke off, and why.', 'broke off in the storm'),
  NOTE,
];

const DEFECT_FIELDS: readonly FieldEntry[] = [
  {
    word: 'on',
    form: '<part:part> at <height:length> [, facing <facing:bearing>]',
    summary:
      'The stem or limb it is on (trunk for the main stem), its height above ground, and the direction it faces.',
    example: 'on North at 18 ft, facing SW',
  },
  SEEN,
  {
    word: 'state',
    form: '<state:suspected|steady|increasing|filled|healed|gone>',
    summary:
      'Whether it is only suspected, and how it is developing: a cavity that was filled is still judged, a wound that has closed over is healed, and what is no longer there (a hanger that fell, a trench backfilled) is gone. A fungus that is gone has left its decay.',
    example: 'state suspected',
  },
  {
    word: 'diameter',
    form: '<diameter:length> [(x | ×) <across:length>]',
    summary:
      'Diameter of the part at the defect, outside bark; two if it is oval, the first in the direction the defect faces.',
    example: 'diameter 28 x 24 in',
  },
  {
    word: 'bark',
    form: '<bark:length>',
    summary: 'Bark thickness, deducted all round; if not stated, anything typical of the species.',
    example: 'bark 0.5 in',
  },
  {
    word: 'opening',
    form: '(<closed:closed> | <width:length> wide [, <tall:length> tall])',
    summary: 'The opening in the surface.',
    example: 'opening 9 in wide, 14 in tall',
    group: 'opening',
  },
  {
    word: 'depth',
    form: '<depth:length>',
    summary: 'Depth reached by a probe; it says nothing about the width of the void.',
    example: 'depth > 11 in',
  },
  {
    word: 'wall',
    form: '<wall:length> [at <bearing:bearing>] {, <wall:length> at <bearing:bearing>}',
    summary:
      'Thickness of the sound wall (the shell of sound wood): all round, or at each bearing given. The further apart the bearings, the less is known between them; give at least four.',
    example: 'wall 2..4 in at SW, ~5 in at NE',
    reader: 'walls',
  },
  {
    word: 'length',
    form: '<length:length>',
    summary: 'Length of a crack, a wound or deadwood.',
    example: 'length 6 ft',
  },
  {
    word: 'width',
    form: '<width:length>',
    summary: 'Width of a crack, a wound or a fruiting body.',
    example: 'width 0.5 in',
  },
  {
    word: 'runs',
    form: '(<course:through|deep|shallow> [, <soil:into the soil>] | <soil:into the soil>)',
    summary:
      'How far a crack runs: through the stem or limb, deep (toward the pith) or shallow (in the outer wood only), and whether it reaches the soil.',
    example: 'runs through, into the soil',
    group: 'runs',
  },
  {
    word: 'share',
    form: '<share:share> of <of:circumference|crown|roots|union>',
    summary: 'How much of it is affected.',
    example: 'share 30 % of circumference',
    group: 'share',
  },
  {
    word: 'distance',
    form: '<distance:length> [toward <toward:bearing>]',
    summary: 'Distance of a trench from the bark at its nearest, and the side of the tree it is on.',
    example: 'distance 4 ft toward N',
  },
  {
    word: 'dug',
    form: '<dug:date>',
    summary: 'The date a trench was dug.',
    example: 'dug 2026-02-10',
    happened: 'digging of',
    begins: true,
  },
  {
    word: 'species',
    form: '<species:species>',
    summary: 'The fungus or bird that caused it.',
    example: 'species Kretzschmaria deusta',
  },
  {
    word: 'closed',
    form: '<closed:date> [<closedBecause:text>]',
    summary: 'The date from which it no longer matters, and why.',
    example: 'closed 2026-06-01 "limb removed"',
    happened: 'closing of',
    ends: true,
  },
  { ...PHOTO, example: 'photo photos/14-a.jpg, from 20 ft' },
  NOTE,
];

/** Of readings by an instrument. */
const READ_AT: FieldEntry = {
  word: 'height',
  form: '<height:length>',
  summary: 'Height above ground at which it was read, if not that of the defect.',
  example: 'height 4 ft',
};
const READING_ERROR: FieldEntry = {
  word: 'error',
  form: '<error:length>',
  summary:
    'How far a reading may be off, to either side; if not stated, what practice allows the instrument.',
  example: 'error 0.3 in',
};
const READ_WALL: FieldEntry = {
  word: 'wall',
  form: '<wall:length> at <bearing:bearing> {, <wall:length> at <bearing:bearing>}',
  summary:
    'Thickness of the sound wall under the bark at each bearing; a path that met no decay is written as more than its length.',
  example: 'wall 3.2 in at N, > 9 in at E',
  reader: 'walls',
};

const PRESCRIPTION_FIELDS: readonly FieldEntry[] = [
  {
    word: 'height',
    form: '<from:length> to <to:length>',
    summary: 'Height before and after.',
    example: 'height 52 ft to 46 ft',
    group: 'height',
  },
  {
    word: 'spread',
    form: '<from:length> to <to:length>',
    summary: 'Crown spread before and after.',
    example: 'spread 58 ft to 52 ft',
    group: 'spread',
  },
  {
    word: 'base',
    form: '<from:length> to <to:length>',
    summary: 'Height of the crown base before and after raising.',
    example: 'base 14 ft to 16 ft',
    group: 'base',
  },
  {
    word: 'shorten',
    form: '<part:part> <from:length> to <to:length>',
    summary: 'Length of a limb or stem before and after it is shortened.',
    example: 'shorten L2 22 ft to 18 ft',
    group: 'shortened',
    many: true,
  },
  ...SUPPORT_FIELDS,
  {
    word: 'dose',
    form: '<dose:share>',
    summary: 'Pruning dose: share of the live foliage removed.',
    example: 'dose 18 %',
  },
  {
    word: 'cuts',
    form: '(up to <cutDiameter:length> [, laterals <laterals:number>] | laterals <laterals:number>)',
    summary:
      'Largest cut; and at reduction cuts, the smallest ratio of the diameter of the remaining lateral to that of the part removed.',
    example: 'cuts up to 3 in, laterals 0.4',
  },
  {
    word: 'method',
    form: '<methods:collar cuts|reduction cuts|heading cuts|flush cuts|topping|inner branches> {, <methods:collar cuts|reduction cuts|heading cuts|flush cuts|topping|inner branches>}',
    summary: 'Pruning method; inner branches means lion-tailing, which is never recommended.',
    example: 'method reduction cuts',
  },
  {
    word: 'paint',
    form: '<paint:none|wounds painted>',
    summary: 'Wound dressing: none, except against certain wilts.',
    example: 'paint none',
  },
  {
    word: 'for',
    form: '<for:cause> {, <for:cause>}',
    summary:
      'The reason for it: defects by name; or a stem or limb by name (trunk for the main stem), for every defect on it and its union.',
    example: 'for A, B',
  },
  {
    word: 'remove',
    form: '<remove:part> {, <remove:part>}',
    summary: 'Stems or limbs to remove entirely.',
    example: 'remove L2',
  },
  {
    word: 'between',
    form: '<between:window>',
    summary: 'Work window: first and last day.',
    example: 'between 2026-09-15..2026-11-30',
  },
  {
    word: 'priority',
    form: '<priority:immediate|high|moderate|low>',
    summary: 'Priority of the work.',
    example: 'priority high',
  },
  {
    word: 'stages',
    form: '<stages:number>',
    summary: 'Number of stages, a year apart.',
    example: 'stages 2',
  },
  BECAUSE,
  { word: 'by', form: '<by:person>', summary: 'The person who prescribes it.', example: 'by RV' },
  {
    word: 'dated',
    form: '<dated:date>',
    summary: 'The date it was prescribed, if not that of the last inspection.',
    example: 'dated 2026-03-20',
    inspected: true,
    happened: 'prescription',
  },
  { word: 'with', form: '<crew:crew>', summary: 'The crew that is to do it.', example: 'with ROPE' },
  ...EFFORT,
  {
    word: 'exclusion',
    form: '<exclusion:length>',
    summary: 'Radius of the drop zone, kept clear of people during the work.',
    example: 'exclusion 80 ft',
  },
  {
    word: 'piece',
    form: '(<mass:mass> | <length:length> [, <diameter:length> [to <narrow:length>] thick])',
    summary:
      'The heaviest single piece to be lowered or lifted, by mass or by size: its length, and its diameter or those of both ends.',
    example: 'piece 8 ft, 20 in to 16 in thick',
    group: 'piece',
  },
  {
    word: 'rigged',
    form: '<how:caught|let run> [, drop <drop:length>] [, rope <rope:length>] [, legs <legs:angle>]',
    summary:
      'How the piece is lowered: caught, or let run where there is room; how far its center of gravity falls before the rope loads, the length of rope under load, and the angle between its legs at the block.',
    example: 'rigged caught, drop 4 ft, rope 40 ft, legs 20 deg',
    group: 'rigged',
  },
  {
    word: 'anchor',
    form: '<part:part> at <height:length> [, <diameter:length> thick]',
    summary:
      'The stem or limb that the block hangs on (trunk for the main stem), its height above ground, and the diameter there.',
    example: 'anchor trunk at 30 ft, 14 in thick',
    group: 'anchor',
  },
  {
    word: 'takedown',
    form: '(<how:dismantled> | <how:by crane> | <how:whole>, toward <toward:bearing>)',
    summary: 'How a tree is felled: dismantled in pieces, by crane, or whole in one direction.',
    example: 'takedown dismantled',
    group: 'takedown',
  },
  {
    word: 'logs',
    form: '<logs:length> {, <logs:length>}',
    summary: 'Log lengths to buck for salvage, from the butt up.',
    example: 'logs 16 ft, 12 ft',
  },
  {
    word: 'wood',
    form: '(<where:stays> | <where:leaves> to <to:text> | <where:leaves>)',
    summary:
      'Whether the wood stays on site, or where it goes. Some places restrict moving the wood of pest hosts.',
    example: 'wood stays',
    group: 'wood',
  },
  {
    word: 'stump',
    form: '(<what:grind> to <size:length> | <what:leave> <size:length> | <what:leave>)',
    summary: 'Treatment of the stump.',
    example: 'stump grind to 8 in',
    group: 'stump',
  },
  {
    word: 'replace',
    form: '<count:number> <species:species> | none [<text:text>]',
    summary: 'Replacement planting.',
    example: 'replace 2 Quercus garryana',
    reader: 'replacement',
  },
  {
    word: 'permit',
    form: '<number:name> [, until <until:date>]',
    summary: 'The permit for this work.',
    example: 'permit TR-2291, until 2026-12-31',
    group: 'permit',
  },
  {
    word: 'notice',
    form: '<given:date> [to <to:text>]',
    summary: 'The date on which the authority was notified of this work, where the law requires notice.',
    example: 'notice 2026-05-04 to "district council"',
    group: 'notice',
    happened: 'notice of',
  },
  {
    word: 'exemption',
    form: '<by:text> [, until <until:date>]',
    summary: 'What allows this work in a closed season: the order or the legal exception, and its last day.',
    example: 'exemption "nature conservation office, letter 44", until 2026-05-31',
    group: 'exemption',
  },
  {
    word: 'replaces',
    form: '<replaces:prescription>',
    summary: 'An earlier prescription that this one replaces.',
    example: 'replaces R1',
  },
  {
    word: 'or',
    form: '<alternatives:prescription> {, <alternatives:prescription>}',
    summary:
      'Prescriptions to which this one is an alternative; only one of them will be done, and the work record shows which.',
    example: 'or R1',
  },
  {
    word: 'withdrawn',
    form: '<withdrawn:date> [<withdrawnBecause:text>]',
    summary: 'The date it was withdrawn, and why.',
    example: 'withdrawn 2026-05-02 "client keeps the tree"',
    happened: 'withdrawal of',
    ends: true,
  },
  NOTE,
];

export const TREE_HEADS: readonly HeadEntry[] = [
  {
    word: 'inspection',
    under: 'tree',
    form: `<date:date> from ${FROM_WHERE}`,
    summary: 'One inspection: its date and vantage point.',
    example: 'inspection 2026-03-14 from drone',
    list: 'inspections',
    key: ['date', 'from'],
    needs: 'date',
    happened: 'inspection',
    fields: [
      BY,
      {
        word: 'level',
        form: '<level:limited|basic|advanced>',
        summary:
          'Level of assessment: limited visual (1), basic from all sides (2), or advanced with instruments (3).',
        example: 'level basic',
      },
      {
        ...DBH,
        summary: 'Diameter at breast height as measured that day, one per stem. The newest counts.',
      },
      { ...GIRTH, summary: 'Circumference at breast height as measured that day.' },
      {
        ...TREE_HEIGHT,
        summary: 'Height of the tree as measured that day. The newest counts.',
      },
      ...READ_ANEW,
      {
        word: 'flown',
        form: '<height:length> [, permission <permission:owner|authority|none>] [, <overPeople:over people>] [, <people:length> from people] [, <unseen:out of sight>] [, at <time:day|night>] [, <standOff:length> stand-off]',
        summary:
          'Height of the drone above ground, and whose permission was obtained. Also the least horizontal distance to uninvolved people, and whether the drone was out of sight.',
        example: 'flown 120 ft, permission owner',
        group: 'flown',
      },
      {
        word: 'with',
        form: '<tools:mallet|probe|binoculars|tomograph|resistance drill|pull test|thermal camera> {, <tools:mallet|probe|binoculars|tomograph|resistance drill|pull test|thermal camera>}',
        summary: 'Instruments used.',
        example: 'with mallet, probe',
      },
      {
        word: 'unseen',
        form: '<unseen:text>',
        summary: 'What could not be inspected, in words.',
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
    summary: 'One of several stems of the tree.',
    example: 'stem North',
    list: 'parts',
    type: 'StemOrLimb',
    key: ['name'],
    readAgain: true,
    declares: 'part',
    fields: PART_FIELDS,
  },
  {
    word: 'limb',
    under: 'tree',
    form: '<name:name>',
    summary: 'A limb that is assessed separately.',
    example: 'limb L2',
    list: 'parts',
    type: 'StemOrLimb',
    key: ['name'],
    readAgain: true,
    declares: 'part',
    fields: PART_FIELDS,
  },
  {
    word: 'support',
    under: 'tree',
    form: '<id:name> <kind:cable|brace|prop|guy>',
    summary: 'A cable, brace, prop or guy that is in place.',
    example: 'support C1 cable',
    list: 'supports',
    key: ['id'],
    readAgain: true,
    fields: [
      {
        word: 'holds',
        form: '<holds:part> {, <holds:part>}',
        summary: 'The stems or limbs that it holds.',
        example: 'holds North, South',
      },
      SEEN,
      ...SUPPORT_FIELDS,
      {
        word: 'installed',
        form: '<installed:date> [by <installedBy:person>]',
        summary: 'The date it was installed, and by whom.',
        example: 'installed 2019-03-02 by RV',
        happened: 'installation of',
        begins: true,
      },
      {
        word: 'inspected',
        form: '<date:date> [by <by:person>]',
        summary: 'An inspection of the support, from near.',
        example: 'inspected 2026-03-14 by RV',
        group: 'looks',
        many: true,
        happened: 'inspection of',
      },
      removed('The date it was taken out, and why.', 'replaced'),
      NOTE,
    ],
  },
  {
    word: 'defect',
    under: 'tree',
    form: `<id:name> <kind:${DEFECT_KINDS.join('|')}>`,
    summary: 'A defect, as recorded at the last inspection above.',
    example: 'defect A cavity',
    list: 'defects',
    key: ['id'],
    readAgain: true,
    declares: 'defect',
    fields: DEFECT_FIELDS,
  },
  {
    word: 'drilling',
    under: 'tree',
    form: '<date:date> of <defect:defect>',
    summary:
      'Readings with a resistance drill at a defect: its sound walls by bearing. At one bearing the latest reading counts.',
    example: 'drilling 2026-05-20 of A',
    list: 'drillings',
    key: ['date', 'defect'],
    needs: 'date',
    happened: 'drilling',
    fields: [
      BY,
      READ_AT,
      READING_ERROR,
      READ_WALL,
      {
        word: 'trace',
        form: '<path:path> at <bearing:bearing> [, threshold <threshold:share>]',
        summary:
          'The trace of one path: a CSV file of depth and amplitude, and the bearing at which the drill went in. Wood below the threshold, a share of the amplitude of sound wood, counts as decayed (20 % if not stated, a judgment).',
        example: 'trace drill/14-a.csv at N, threshold 25 %',
        many: true,
        group: 'traces',
      },
      NOTE,
    ],
  },
  {
    word: 'tomogram',
    under: 'tree',
    form: '<date:date> of <defect:defect>',
    summary:
      'Readings from a tomogram at a defect, by bearing, as sound walls or as the sound share of the radius. At one bearing the latest reading counts.',
    example: 'tomogram 2026-05-20 of A',
    list: 'tomograms',
    key: ['date', 'defect'],
    needs: 'date',
    happened: 'tomogram',
    fields: [
      BY,
      READ_AT,
      READING_ERROR,
      { ...READ_WALL, example: 'wall 3 in at N, 4 in at E' },
      {
        word: 'sound',
        form: '<share:share> at <bearing:bearing>',
        summary: 'Sound share of the radius at a bearing, from the bark inward.',
        example: 'sound 45 % at SW',
        many: true,
        group: 'sounds',
      },
      NOTE,
    ],
  },
  {
    word: 'joined',
    under: 'tree',
    form: '<defects:defect> {, <defects:defect>} <state:suspected|proved|excluded>',
    summary: 'Cavities that are, may be or are not connected inside.',
    example: 'joined A, B suspected',
    list: 'joined',
    key: ['defects'],
    readAgain: true,
    unread: { state: 'suspected' },
    fields: [SEEN, NOTE],
  },
  {
    word: 'target',
    under: 'tree',
    form: '<name:text>',
    summary: 'People or property that the tree or a part of it could strike.',
    example: 'target "Play lawn"',
    list: 'targets',
    key: ['name'],
    readAgain: true,
    declares: 'target',
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
        summary: 'Occupancy rate.',
        example: 'occupied frequent',
      },
      {
        word: 'kind',
        form: '<kind:people|road|building|vehicles|utility|other>',
        summary: 'Type of target.',
        example: 'kind people',
      },
      SEEN,
      {
        word: 'closed',
        form: '<from:date> [, until <until:date>] , by <by:person>',
        summary: 'The dates on which people are kept out (the end may be left open), and who is responsible.',
        example: 'closed 2026-05-04, until 2026-06-12, by RV',
        group: 'closed',
        ends: true,
      },
      removed('The date from which it is no longer there, and why.', 'bench moved to the pond'),
      NOTE,
    ],
  },
  {
    word: 'risk',
    under: 'tree',
    form: '<target:target> [from <defect:cause>]',
    summary: 'A risk assessment for one target and one part of the tree.',
    example: 'risk "Play lawn" from A',
    list: 'risks',
    key: ['target', 'defect'],
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
        summary: 'The resulting risk rating.',
        example: 'rating low',
      },
      {
        word: 'within',
        form: '<within:duration>',
        summary: 'The time frame of the assessment.',
        example: 'within 1 year',
      },
      {
        ...BECAUSE,
        summary: 'Why the likelihood of failure is rated lower than the figures or the rating codes allow.',
        example: 'because "ribs of new wood on both sides of the cavity"',
      },
      SEEN,
      {
        word: 'by',
        form: '<by:person>',
        summary: 'The person who rated it, if not the inspector on that date.',
        example: 'by RV',
      },
      NOTE,
    ],
  },
  {
    word: 'conductor',
    under: 'tree',
    form: '<name:text>',
    summary: 'An overhead power line nearby.',
    example: 'conductor "Alley line"',
    list: 'conductors',
    key: ['name'],
    readAgain: true,
    declares: 'conductor',
    fields: [
      {
        word: 'voltage',
        form: '<voltage:voltage> [<reference:between phases|to ground>]',
        summary:
          'Nominal voltage, as stated by the utility, and between what. If that is not stated, the stricter reading counts.',
        example: 'voltage 12.5 kV between phases',
      },
      {
        word: 'phases',
        form: '<phases:one|several>',
        summary: 'Phases within reach of the work; several if not stated.',
        example: 'phases one',
      },
      {
        word: 'distance',
        form: '<distance:length>',
        summary: 'Smallest distance to the crown or to the work.',
        example: 'distance 14 ft',
      },
      {
        word: 'aside',
        form: '<aside:length>',
        summary:
          'Smallest horizontal distance from the outer conductors to the crown or to the work; for regions where everything above or below a line is too close.',
        example: 'aside 12 ft',
      },
      {
        word: 'agreed',
        form: '<distance:length> <because:text>',
        summary:
          'Minimum distance that the owner of the line allows the crew in writing, and the document. It counts only where the law leaves the distance to the owner or has none for the qualification of the crew.',
        example: 'agreed 6 ft "letter of the utility, 2026-03-02"',
        group: 'agreed',
      },
      { word: 'height', form: '<height:length>', summary: 'Height above ground.', example: 'height 34 ft' },
      {
        word: 'dead',
        form: '<dead:window>',
        summary: 'Days on which the utility has the line de-energized and grounded.',
        example: 'dead 2026-10-01..2026-10-03',
      },
      SEEN,
      removed('The date the line was taken down, and why.', 'put underground'),
      NOTE,
    ],
  },
  {
    word: 'nest check',
    under: 'tree',
    form: `<date:date> from ${FROM_WHERE}`,
    summary: 'A search for nests.',
    example: 'nest check 2026-03-14 from drone',
    list: 'nestChecks',
    key: ['date', 'from'],
    needs: 'date',
    happened: 'nest check',
    fields: [
      BY,
      {
        word: 'stand-off',
        form: '<standOff:length>',
        summary: 'Distance kept from the crown or nest.',
        example: 'stand-off 55 ft',
      },
      {
        word: 'found',
        form: '(<use:none> | <use:active|old|unclear> [<species:species>] [at <height:length>])',
        summary: 'What was found.',
        example: 'found active Colaptes auratus at 30 ft',
        group: 'found',
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
    list: 'batChecks',
    key: ['date', 'from'],
    needs: 'date',
    happened: 'bat check',
    fields: [
      BY,
      {
        word: 'found',
        form: '(<use:none> | <use:signs|roost|maternity roost|unclear> [in <defect:defect>])',
        summary: 'What was found.',
        example: 'found none',
        group: 'found',
        many: true,
      },
      NOTE,
    ],
  },
  {
    word: 'pull test',
    under: 'tree',
    form: '<date:date> [toward <toward:bearing>]',
    summary:
      'A pull test: its date and the direction in which the tree was pulled. The figures are those of the greatest load, read together.',
    example: 'pull test 2026-05-12 toward NE',
    list: 'pullTests',
    key: ['date', 'toward'],
    needs: 'date',
    happened: 'pull test',
    fields: [
      BY,
      {
        word: 'force',
        form: '<force:force>',
        summary: 'Force in the rope.',
        example: 'force 12 kN',
      },
      {
        word: 'rope',
        form: 'at <ropeHeight:length> , <slope:angle> from horizontal [, <offset:length> off axis]',
        summary:
          'Height above ground at which the rope holds the stem, and its angle from the horizontal. Off axis: how far that point lies from the axis of the root plate in the direction of the pull.',
        example: 'rope at 30 ft, 25 deg from horizontal',
      },
      {
        word: 'inclination',
        form: '<inclinations:angle> {, <inclinations:angle>}',
        summary: 'Inclination of the root plate in the direction of the pull, at the stem base on two sides.',
        example: 'inclination 0.18 deg, 0.15 deg',
      },
      {
        word: 'strain',
        form: '<strain:share> at <height:length>',
        summary: 'Strain of the outermost wood, and its height above ground.',
        example: 'strain 0.045 % at 3 ft',
        group: 'strains',
        many: true,
      },
      {
        word: 'soil',
        form: '<soil:moist|wet|dry|frozen>',
        summary: 'Condition of the ground during the test.',
        example: 'soil moist',
      },
      NOTE,
    ],
  },
  {
    word: 'view',
    under: 'tree',
    form: '<name:text>',
    summary: 'A sight line past the tree: something to keep screened, or a vista to open.',
    example: 'view "Reading room"',
    list: 'views',
    key: ['name'],
    readAgain: true,
    declares: 'view',
    fields: [
      {
        word: 'eye',
        form: '<eye:length> , <away:length> away',
        summary: 'Eye height of the viewer, and horizontal distance from the trunk.',
        example: 'eye 14 ft, 40 ft away',
      },
      {
        word: 'hide',
        form: '<object:length> , <beyond:length> beyond',
        summary: 'Height range of what is to stay screened, and its distance beyond the trunk.',
        example: 'hide 0..24 ft, 140 ft beyond',
        group: 'hide',
      },
      {
        word: 'open',
        form: '<object:length> , <beyond:length> beyond',
        summary: 'Height range of what is to come into view, and its distance beyond the trunk.',
        example: 'open 30..60 ft, 900 ft beyond',
        group: 'open',
      },
      SEEN,
      NOTE,
    ],
  },
  {
    word: 'prescription',
    under: 'tree',
    form: `<id:name> <kind:${PRESCRIPTION_KINDS.join('|')}>`,
    summary: 'A prescription: the work to be done.',
    example: 'prescription R1 reduce',
    list: 'prescriptions',
    key: ['id'],
    declares: 'prescription',
    fields: PRESCRIPTION_FIELDS,
  },
  {
    word: 'work',
    under: 'tree',
    form: '<prescription:prescription> <date:date>',
    summary: 'Work done: under which prescription, and when.',
    example: 'work R1 2026-10-02',
    list: 'works',
    key: ['prescription', 'date'],
    needs: 'date',
    happened: 'work',
    fields: [
      BY,
      { word: 'with', form: '<crew:crew>', summary: 'The crew that did it.', example: 'with ROPE' },
      {
        word: 'dose',
        form: '<dose:share>',
        summary: 'Pruning dose: share of the live foliage that was removed.',
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
        word: 'base',
        form: '<base:length>',
        summary: 'Height of the crown base afterwards.',
        example: 'base 16 ft',
      },
      {
        word: 'cuts',
        form: '(up to <cutDiameter:length> [, laterals <laterals:number>] | laterals <laterals:number>)',
        summary: 'Largest cut made, and smallest lateral ratio left.',
        example: 'cuts up to 3 in, laterals 0.4',
      },
      {
        word: 'unfinished',
        form: '<unfinished:text>',
        summary: 'What was left undone of the prescription or of this stage; it stays outstanding.',
        example: 'unfinished "the two lowest limbs: no lift that day"',
      },
      {
        ...PHOTO,
        summary: 'A photograph of the tree afterwards; otherwise as at an inspection.',
        example: 'photo photos/14-reduced.jpg, from 55 ft, toward NE',
      },
      NOTE,
    ],
  },
  {
    word: 'follow-up',
    under: 'tree',
    form: '<id:name> <kind:re-inspection|climbing inspection|tomogram|resistance drilling|pull test|probe|root inspection|nest check|bat check>',
    summary: 'Further investigation, outstanding or completed.',
    example: 'follow-up F1 climbing inspection',
    list: 'followUps',
    key: ['id'],
    declares: 'follow-up',
    fields: [
      {
        word: 'of',
        form: '<of:cause> {, <of:cause>}',
        summary: 'What to investigate: defects, or a stem or limb, by name.',
        example: 'of A, B',
      },
      { word: 'due', form: '<due:date>', summary: 'Due date.', example: 'due 2026-06-30' },
      {
        word: 'done',
        form: '<done:date>',
        summary: 'The date it was done.',
        example: 'done 2026-06-12',
        happened: 'follow-up',
      },
      BY,
      BECAUSE,
      ...EFFORT,
      NOTE,
    ],
  },
  {
    word: 'accept',
    under: 'tree',
    form: '<rule:rule> [for <subject:subject>]',
    summary: 'An exception: a finding accepted by a named person, until a date and for a reason.',
    example: 'accept reinspection-overdue',
    list: 'accepts',
    key: ['rule', 'subject'],
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
