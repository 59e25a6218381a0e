/** Heads of the file itself and their fields: site, person, crew, practice, tree. See entries.ts. */

import type { FieldEntry, HeadEntry } from './entries.ts';

export const NOTE: FieldEntry = {
  word: 'note',
  form: '<notes:text>',
  summary: 'Anything worth keeping that no other field holds; reports show it.',
  example: 'note "gate code from the office"',
  many: true,
};

export const BECAUSE: FieldEntry = {
  word: 'because',
  form: '<because:text>',
  summary: 'The reason, for whoever reads this later.',
  example: 'because "lighten the load on the cavities; keep the screen"',
};

export const BY: FieldEntry = {
  word: 'by',
  form: '<by:person>',
  summary: 'The person who did it, as named by a person head.',
  example: 'by RV',
};

const POSITION: FieldEntry = {
  word: 'position',
  form: '<latitude:number> , <longitude:number>',
  summary: 'Latitude and longitude in decimal degrees, WGS 84.',
  example: 'position 44.31281, -122.87131',
  distinct: true,
  reader: 'position',
};

export const DBH: FieldEntry = {
  word: 'dbh',
  form: '<diameters:length> {, <diameters:length>} [at <measuredAt:length>]',
  summary:
    'Diameter at breast height; one for each stem. The height of measuring follows the region unless stated.',
  example: 'dbh 41 in',
};

export const GIRTH: FieldEntry = {
  word: 'girth',
  form: '<diameters:length> {, <diameters:length>} [at <measuredAt:length>]',
  summary: 'Circumference at breast height, where that was taped instead of the diameter.',
  example: 'girth 327 cm',
  reader: 'girth',
};

export const TREE_HEIGHT: FieldEntry = {
  word: 'height',
  form: '<height:length>',
  summary: 'Height of the tree.',
  example: 'height 52 ft',
};

const QUALIFICATIONS = [
  'consulting arborist',
  'climbing arborist',
  'ground worker',
  'remote pilot',
  'line clearance',
  'wildlife biologist',
  'bat worker',
  'crane operator',
  'trainee',
] as const;

const QUALIFIED: FieldEntry = {
  word: 'qualified',
  form: `<qualifications:${QUALIFICATIONS.join('|')}> {, <qualifications:${QUALIFICATIONS.join('|')}>}`,
  summary: 'What they are qualified for.',
  example: 'qualified consulting arborist, remote pilot',
};

const VIGOR: FieldEntry = {
  word: 'vigor',
  form: '<vigor:good|fair|poor|dead>',
  summary: 'Vigor of growth and foliage.',
  example: 'vigor fair',
};

const TREE_FIELDS: readonly FieldEntry[] = [
  {
    word: 'species',
    form: '<species:species>',
    summary:
      "Botanical name: binomial, hybrids with ×, ranks, 'Cultivar'; a genus alone where that is all that is known.",
    example: "species Acer rubrum 'October Glory'",
  },
  POSITION,
  DBH,
  GIRTH,
  TREE_HEIGHT,
  {
    word: 'crown',
    form: '(from <crownBase:length> [, <crownSpread:length> wide] | <crownSpread:length> wide)',
    summary: 'Height of the crown base and mean crown spread.',
    example: 'crown from 14 ft, 58 ft wide',
  },
  {
    word: 'live-crown',
    form: '<liveCrown:share>',
    summary: 'Live crown ratio: length of the living crown over height of the tree.',
    example: 'live-crown 65 %',
  },
  {
    word: 'lean',
    form: '<angle:angle> [toward <toward:bearing>] [, <course:steady|increasing|new|corrected>]',
    group: 'lean',
    summary: 'Lean of the trunk from upright, where it points, and whether it changes.',
    example: 'lean 12 deg toward SW, steady',
  },
  {
    word: 'soil',
    form: '<soil:firm|cracked|heaving|wet|compacted|unseen>',
    summary: 'The ground around the root collar.',
    example: 'soil firm',
  },
  {
    word: 'age',
    form: '<age:young|semi-mature|mature|over-mature|veteran>',
    summary: 'Stage of life.',
    example: 'age mature',
  },
  VIGOR,
  { ...VIGOR, word: 'vigour', summary: 'The same as vigor.', example: 'vigour fair', alias: 'vigor' },
  {
    word: 'stressed',
    form: 'by <cause:drought|storm|construction|disease|insects|heat|flooding> [, since <since:date>]',
    summary: 'A stress that the tree is still under; its pruning limits become narrower.',
    example: 'stressed by drought, since 2025-07-01',
    group: 'stressed',
    happened: 'stress',
  },
  {
    word: 'protected',
    form: '[by <by:text>] [permit (none | <permit:name>) [, until <until:date>] [, for <scope:pruning|removal|any work>]]',
    summary: 'A protected tree: by which order, and the permit for work on it with its last day.',
    example: 'protected permit TR-2291, until 2026-12-31',
    group: 'protection',
  },
  {
    word: 'formerly',
    form: '<formerly:name>',
    summary: 'The tag that this tree had before.',
    example: 'formerly T-009',
    many: true,
  },
  {
    word: 'planted',
    form: '<planted:date>',
    summary: 'The day the tree was planted; 1 January where only the year is known.',
    example: 'planted 1998-03-01',
    happened: 'planting',
  },
  {
    word: 'felled',
    form: '<felled:date>',
    summary: 'The day the tree was felled or fell; its record stays.',
    example: 'felled 2025-11-20',
    happened: 'felling',
  },
  {
    word: 'photo',
    form: '<photos:path>',
    summary: 'A photograph of the whole tree.',
    example: 'photo photos/14-whole.jpg',
    many: true,
  },
  NOTE,
];

export const TOP_HEADS: readonly HeadEntry[] = [
  {
    word: 'site',
    form: '<name:text>',
    summary: 'A place with trees. It owns the files of its folder and below, until a nested site takes over.',
    example: 'site "Fernhollow Court"',
    key: [],
    fields: [
      {
        word: 'region',
        form: '<region:region>',
        summary: 'ISO 3166-2 code (or country code) that chooses seasons, laws and breast height.',
        example: 'region US-OR',
      },
      POSITION,
      {
        word: 'wind',
        form: '<speed:speed> , exposure <exposure:B|C|D>',
        summary: 'Basic wind speed of the site (3-second gust) and exposure category of ASCE 7.',
        example: 'wind 92 mph, exposure B',
        group: 'wind',
      },
      {
        word: 'client',
        form: '<client:text>',
        summary: 'For whom.',
        example: 'client "Fernhollow Court Owners"',
      },
      {
        word: 'interval',
        form: '<interval:duration>',
        summary: 'Longest time between two inspections of a tree here.',
        example: 'interval 12 months',
      },
      {
        word: 'breast-height',
        form: '<breastHeight:length>',
        summary: 'Height at which dbh is measured, where it is not that of the region.',
        example: 'breast-height 4.5 ft',
      },
      {
        word: 'storm',
        form: '<date:date> [<text:text>]',
        summary: 'A storm after which trees with watched defects are looked at again.',
        example: 'storm 2026-01-18 "gusts to 61 mph"',
        group: 'storms',
        many: true,
      },
      {
        word: 'grounds',
        form: '<grounds:private|street|public park|national park>',
        summary: 'What kind of land it is; parks are often closed to drones.',
        example: 'grounds private',
      },
      {
        word: 'airspace',
        form: '(uncontrolled | <controlled:controlled> [, authorized <authorizedUntil:date>])',
        summary: 'Whether flights with a drone need authorization here, and until when it holds.',
        example: 'airspace uncontrolled',
        group: 'airspace',
      },
      NOTE,
    ],
  },
  {
    word: 'person',
    form: '<id:name> <name:text>',
    summary: 'Somebody who inspects, prescribes or works, by a short name.',
    example: 'person RV "Ruth Varga"',
    key: ['id'],
    declares: 'person',
    fields: [
      QUALIFIED,
      {
        word: 'certificate',
        form: '<number:text> [, until <until:date>]',
        summary: 'A certificate or licence and its last day.',
        example: 'certificate "remote pilot 4417", until 2027-05-31',
        group: 'certificates',
        many: true,
      },
      NOTE,
    ],
  },
  {
    word: 'crew',
    form: '<id:name> <name:text>',
    summary: 'A crew with its limits.',
    example: 'crew ROPE "Rope crew"',
    key: ['id'],
    declares: 'crew',
    fields: [
      {
        word: 'members',
        form: '<members:person> {, <members:person>}',
        summary: 'The persons in it.',
        example: 'members JM, TL',
      },
      QUALIFIED,
      {
        word: 'rope',
        form: '<rope:mass>',
        summary: 'Heaviest piece that the crew lowers on its rigging.',
        example: 'rope 400 lb',
      },
      {
        word: 'crane',
        form: '<mass:mass> [at <reach:length>]',
        summary: 'Heaviest pick of the crane, at its reach.',
        example: 'crane 6000 lb at 60 ft',
        group: 'crane',
      },
      { word: 'lift', form: '<lift:length>', summary: 'Working height of the lift.', example: 'lift 55 ft' },
      NOTE,
    ],
  },
  {
    word: 'practice',
    form: '<name:text>',
    summary: 'Limits, seasons and severities for this folder and below, each with its reason.',
    example: 'practice "Office limits"',
    key: ['name'],
    fields: [NOTE],
  },
  {
    word: 'tree',
    form: '<tag:name> [<name:text>]',
    summary: 'A tree by its tag, unique in its site.',
    example: 'tree 14 "Lawn maple"',
    key: ['tag'],
    declares: 'tag',
    distinct: true,
    fields: TREE_FIELDS,
  },
];

export const PRACTICE_HEADS: readonly HeadEntry[] = [
  {
    word: 'limit',
    under: 'practice',
    form: '<name:limit> (<value:share> | <value:length> | <value:angle> | <value:duration> | <value:mass> | <value:voltage> | <value:number>)',
    summary:
      'Another value for one of the limits that the rules use; one of law or safety only a stricter one.',
    example: 'limit strength-loss 30 %',
    list: 'limits',
    key: ['name'],
    needs: 'value',
    fields: [
      BECAUSE,
      {
        word: 'authorized',
        form: 'by <by:text> , until <until:date>',
        summary:
          'What allows a limit looser than the law, and its last day: a waiver, or a condition of a permit.',
        example: 'authorized by "waiver 107W-2026-0123", until 2026-12-31',
        group: 'authorized',
      },
    ],
  },
  {
    word: 'season',
    under: 'practice',
    form: '<season:nesting|raptor nesting|bat maternity|pruning> <days:monthDays>',
    summary: 'Another season than that of the region; pruning names the days on which cuts are not wanted.',
    example: 'season nesting 02-01..08-31',
    list: 'seasons',
    key: ['season'],
    needs: 'days',
    fields: [BECAUSE],
  },
  {
    word: 'severity',
    under: 'practice',
    form: '<rule:rule> <level:error|warning|note|off>',
    summary: 'Another level for the findings of a rule; those of law and safety only a graver one.',
    example: 'severity live-crown-ratio note',
    list: 'severities',
    key: ['rule'],
    needs: 'level',
    fields: [BECAUSE],
  },
];
