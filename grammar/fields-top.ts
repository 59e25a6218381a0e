/**
 * Heads of the file itself and their fields: site, person, crew, practice, tree. See entries.ts. Long because it is one
 * table, read as one.
 */

import type { FieldEntry, HeadEntry } from './entries.ts';

export const NOTE: FieldEntry = {
  word: 'note',
  form: '<notes:text>',
  summary: 'Any other information worth keeping; reports include it.',
  example: 'note "gate code from the office"',
  many: true,
};

export const BECAUSE: FieldEntry = {
  word: 'because',
  form: '<because:text>',
  summary: 'The reason, for later readers.',
  example: 'because "lighten the load on the cavities; keep the screen"',
};

export const BY: FieldEntry = {
  word: 'by',
  form: '<by:person>',
  summary: 'The person who did it, by the name in their person record.',
  example: 'by RV',
};

/** Of the regions on record. */
const CURRENCIES = 'USD|CAD|MXN|EUR|GBP|CHF|DKK|SEK|NOK|PLN|AUD|NZD';

/** What work or an investigation takes and costs. */
export const EFFORT: readonly FieldEntry[] = [
  {
    word: 'hours',
    form: '<hours:number>',
    summary: 'Estimated time of the crew on site, in hours.',
    example: 'hours 5..7',
  },
  {
    word: 'price',
    form: `<amount:number> <currency:${CURRENCIES}>`,
    summary:
      'Price before tax, with its currency (ISO 4217); the report sums the prices of a site into a quote for the client.',
    example: 'price 850 USD',
    group: 'price',
  },
];

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
    'Diameter at breast height, one per stem. The region sets the measuring height unless it is stated.',
  example: 'dbh 41 in',
};

export const GIRTH: FieldEntry = {
  word: 'girth',
  form: '<diameters:length> {, <diameters:length>} [at <measuredAt:length>]',
  summary: 'Circumference at breast height, if that was taped instead of the diameter.',
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
  'electrically instructed',
  'electrically qualified',
  'wildlife biologist',
  'bat worker',
  'crane operator',
  'trainee',
] as const;

const QUALIFIED: FieldEntry = {
  word: 'qualified',
  form: `<qualifications:${QUALIFICATIONS.join('|')}> {, <qualifications:${QUALIFICATIONS.join('|')}>}`,
  summary: 'Qualifications.',
  example: 'qualified consulting arborist, remote pilot',
};

const VIGOR: FieldEntry = {
  word: 'vigor',
  form: '<vigor:good|fair|poor|dead>',
  summary: 'Vigor, judged by growth and foliage.',
  example: 'vigor fair',
};

const HILL: FieldEntry = {
  word: 'hill',
  form: '(<flat:flat ground> | <shape:ridge|escarpment|round hill>, <high:length> high, half-length <halfLength:length>, (<crest:at crest> | <distance:length> <side:upwind|downwind> of crest))',
  group: 'hill',
  summary:
    'A hill over which the wind speeds up, as in ASCE 7: its height, and the horizontal distance from the crest to where the ground upwind is half as high. Also where the site or the tree is. Only for a hill that no similar hill shelters upwind, within 100 times its height or 2 mi. For a tree that the hill of its site does not affect, write flat ground.',
  example: 'hill escarpment, 50 ft high, half-length 60 ft, 25 ft upwind of crest',
};

const WIND_FACTOR: FieldEntry = {
  word: 'wind-factor',
  form: '<factor:number> <because:text>',
  group: 'windFactor',
  summary:
    'A factor on the design wind speed that the arborist states, from 1 to 1.3, and why: an edge made by felling, a gap between buildings. Shelter is not credited.',
  example: 'wind-factor 1.1 "edge since the neighbors to the west were felled"',
};

/** What an inspection may record anew: the newest counts. */
const SHAPE: readonly FieldEntry[] = [
  {
    word: 'taper',
    form: '<diameter:length> at <height:length>',
    summary:
      'Diameter of the trunk higher up, outside bark, and the height above ground at which it was measured.',
    example: 'taper 18 in at 17 ft',
    group: 'taper',
  },
  {
    word: 'crown',
    form: '(from <crownBase:length> [, <crownSpread:length> wide] | <crownSpread:length> wide)',
    summary: 'Height of the crown base and mean crown spread.',
    example: 'crown from 14 ft, 58 ft wide',
  },
  {
    word: 'live-crown',
    form: '<liveCrown:share>',
    summary: 'Live crown ratio: live crown length divided by tree height.',
    example: 'live-crown 65 %',
  },
  {
    word: 'lean',
    form: '<angle:angle> [toward <toward:bearing>] [, <course:steady|increasing|new|corrected>] [, crown <crownAside:length> aside] [, trunk <trunkAside:length> aside]',
    group: 'lean',
    summary:
      'Lean of the trunk from vertical, its direction, and whether it is changing. For a bowed trunk also how far, by plumb line, the middle of the crown is to the side of the base, and the middle of the trunk.',
    example: 'lean 12 deg toward SW, steady',
  },
];

const CONDITION: readonly FieldEntry[] = [
  {
    word: 'soil',
    form: '<soil:firm|cracked|heaving|wet|compacted|unseen>',
    summary: 'Condition of the soil around the root collar.',
    example: 'soil firm',
  },
  {
    word: 'age',
    form: '<age:young|semi-mature|mature|over-mature|veteran>',
    summary: 'Life stage.',
    example: 'age mature',
  },
  VIGOR,
  { ...VIGOR, word: 'vigour', summary: 'British spelling of vigor.', example: 'vigour fair', alias: 'vigor' },
  {
    word: 'stressed',
    form: '(<none:none> | by <cause:drought|storm|construction|disease|insects|heat|flooding> [, since <since:date>])',
    summary:
      'A stress the tree is recovering from; lower dose limits apply. None where a tree stressed before has recovered.',
    example: 'stressed by drought, since 2025-07-01',
    group: 'stressed',
    happened: 'stress',
  },
  {
    word: 'dieback',
    form: '<dieback:share>',
    summary: 'Share of the crown that has died back from the tips.',
    example: 'dieback 15 %',
  },
];

/** What of a tree changes in time besides its size, stated for the tree or in an inspection. */
export const READ_ANEW: readonly FieldEntry[] = [...SHAPE, ...CONDITION];

const TREE_FIELDS: readonly FieldEntry[] = [
  {
    word: 'species',
    form: '<species:species>',
    summary:
      "Botanical name: a binomial, with × for hybrids, ranks and 'Cultivar' if known; otherwise the genus alone.",
    example: "species Acer rubrum 'October Glory'",
  },
  POSITION,
  DBH,
  GIRTH,
  TREE_HEIGHT,
  ...SHAPE,
  HILL,
  WIND_FACTOR,
  ...CONDITION,
  {
    word: 'protected',
    form: '[under <under:order|conservation area|list>] [by <by:text>] [permit (none | <permit:name>) [, until <until:date>] [, for <scope:pruning|removal|any work>]]',
    summary:
      'Marks a protected tree: what protects it, an order, a conservation area or a list, and the permit for work on it with its expiry date.',
    example: 'protected permit TR-2291, until 2026-12-31',
    group: 'protection',
  },
  {
    word: 'formerly',
    form: '<formerly:name>',
    summary: 'A former tag of this tree.',
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
    summary: 'The date the tree was felled or fell; its record is kept.',
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
    summary:
      'A site. It covers the files in its folder and subfolders, except subfolders with a site of their own.',
    example: 'site "Fernhollow Court"',
    key: [],
    fields: [
      {
        word: 'region',
        form: '<region:region>',
        summary: 'ISO 3166-2 code (or country code), which selects seasons, laws and breast height.',
        example: 'region US-OR',
      },
      POSITION,
      {
        word: 'altitude',
        form: '<altitude:length>',
        summary: 'Height above the sea. At altitude, minimum approach distances to power lines are longer.',
        example: 'altitude 640 ft',
      },
      {
        word: 'ice',
        form: '<thickness:length> [<because:text>]',
        summary:
          'Radial thickness of ice that limbs must carry, and its source. Without it no ice load is assumed.',
        example: 'ice 0.5 in "design ice of the utility"',
        group: 'ice',
      },
      {
        word: 'wind',
        form: '<speed:speed> [, exposure <exposure:B|C|D>] [, <averaging:gust|ten-minute mean|hourly mean>] [, <leafless:leafless>]',
        summary:
          'Basic wind speed of the site in open terrain, a 3-second gust unless stated, and exposure category, as in ASCE 7. With leafless, figures for bare deciduous trees are given beside those in leaf.',
        example: 'wind 92 mph, exposure B',
        group: 'wind',
      },
      HILL,
      WIND_FACTOR,
      {
        word: 'gales',
        form: 'from <galesFrom:bearing>',
        summary: 'Where the prevailing storms come from.',
        example: 'gales from SW',
      },
      {
        word: 'client',
        form: '<client:text>',
        summary: 'The client.',
        example: 'client "Fernhollow Court Owners"',
      },
      {
        word: 'firm',
        form: '<firm:text>',
        summary: 'The firm responsible for the report, with its address and telephone number.',
        example: 'firm "Varga Tree Consulting, 12 Mill Lane, 555 0142"',
      },
      {
        word: 'assignment',
        form: '<assignment:text>',
        summary: 'What the client asked for.',
        example: 'assignment "inspect the trees above paths, play areas and parking"',
      },
      {
        word: 'scope',
        form: '<scope:text>',
        summary: 'Which trees and parts of them the report covers, and which it does not.',
        example: 'scope "all trees over 8 in; the woodland strip was not visited"',
      },
      {
        word: 'procedure',
        form: '<procedure:text>',
        summary: 'How the trees were inspected and rated.',
        example: 'procedure "basic inspection from the ground in leaf, rated for one year"',
      },
      {
        word: 'limitation',
        form: '<limitations:text>',
        summary: 'A limiting condition of the report.',
        example: 'limitation "no roots were uncovered"',
        many: true,
      },
      {
        word: 'hospital',
        form: '<hospital:text>',
        summary: 'The nearest hospital with an emergency department; work orders show it.',
        example: 'hospital "Hollow Creek Hospital, 400 Alder Street, 4 mi"',
      },
      {
        word: 'muster',
        form: '<muster:text>',
        summary: 'Where the crew gathers in an emergency and meets the ambulance; work orders show it.',
        example: 'muster "gate on Mill Lane, beside the mailboxes"',
      },
      {
        word: 'quote',
        form: '<number:text> [, until <until:date>] [, tax <tax:share>]',
        summary:
          'Number of the quote for the prices of the site, the last day on which it can be accepted, and the tax that is added.',
        example: 'quote "Q-2026-014", until 2026-09-30, tax 8.25 %',
        group: 'quote',
      },
      {
        word: 'interval',
        form: '<interval:duration>',
        summary: 'Maximum time between two inspections of a tree on this site.',
        example: 'interval 12 months',
      },
      {
        word: 'breast-height',
        form: '<breastHeight:length>',
        summary: 'Height at which dbh is measured, if it differs from that of the region.',
        example: 'breast-height 4.5 ft',
      },
      {
        word: 'storm',
        form: '<date:date> [<text:text>]',
        summary: 'A storm after which trees with monitored defects are inspected again.',
        example: 'storm 2026-01-18 "gusts to 61 mph"',
        group: 'storms',
        many: true,
      },
      {
        word: 'grounds',
        form: '<grounds:private|garden|orchard|churchyard|street|forest|farm|open|public park|national park>',
        summary:
          'Type of land, which affects closed seasons, permits and drones. For private land, name the most specific type, such as garden, forest, farm or open.',
        example: 'grounds private',
      },
      {
        word: 'conservation-area',
        form: '<conservationArea:text>',
        summary: 'The conservation area in which the trees of the site stand.',
        example: 'conservation-area "Mill Lane"',
      },
      {
        word: 'airspace',
        form: '(uncontrolled | <controlled:controlled> [, authorized <authorizedUntil:date>])',
        summary: 'Whether drone flights need authorization here, and how long it is valid.',
        example: 'airspace uncontrolled',
        group: 'airspace',
      },
      NOTE,
    ],
  },
  {
    word: 'person',
    form: '<id:name> <name:text>',
    summary: 'A person who inspects, prescribes or works, with a short name.',
    example: 'person RV "Ruth Varga"',
    key: ['id'],
    declares: 'person',
    fields: [
      QUALIFIED,
      {
        word: 'certificate',
        form: '<number:text> [, until <until:date>]',
        summary: 'A certificate or license, and its expiry date.',
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
    summary: 'A crew and the limits of its equipment.',
    example: 'crew ROPE "Rope crew"',
    key: ['id'],
    declares: 'crew',
    fields: [
      {
        word: 'members',
        form: '<members:person> {, <members:person>}',
        summary: 'Its members.',
        example: 'members JM, TL',
      },
      QUALIFIED,
      {
        word: 'rope',
        form: '<rope:mass>',
        summary: "Working load limit of the crew's rigging.",
        example: 'rope 400 lb',
      },
      {
        word: 'line',
        form: '<strength:force> [, stretches <elongation:share>] [, <spliced:spliced>]',
        summary:
          'Breaking strength of the rigging line, its elongation at a tenth of that, and whether it is spliced; otherwise it is tied with knots.',
        example: 'line 72 kN, stretches 2 %, spliced',
        group: 'riggingLine',
      },
      {
        word: 'block',
        form: '<block:force>',
        summary: 'Breaking strength of the rigging block or ring.',
        example: 'block 100 kN',
      },
      {
        word: 'sling',
        form: '<sling:force>',
        summary: 'Breaking strength of the sling that holds the block.',
        example: 'sling 80 kN',
      },
      {
        word: 'crane',
        form: '<mass:mass> [at <reach:length>]',
        summary: 'Heaviest pick of the crane, and the reach at which it applies.',
        example: 'crane 6000 lb at 60 ft',
        group: 'crane',
      },
      {
        word: 'lift',
        form: '<lift:length>',
        summary: 'Working height of the aerial lift.',
        example: 'lift 55 ft',
      },
      {
        word: 'language',
        form: '<language:en|es>',
        summary: 'The language of its work orders, English (en) unless stated: es is Spanish.',
        example: 'language es',
      },
      NOTE,
    ],
  },
  {
    word: 'practice',
    form: '<name:text>',
    summary:
      'Limits, seasons, distances and severities for this folder and its subfolders, each with its reason.',
    example: 'practice "Office limits"',
    key: ['name'],
    fields: [NOTE],
  },
  {
    word: 'tree',
    form: '<tag:name> [<name:text>]',
    summary: 'A tree, with a tag that is unique within its site.',
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
    summary: 'A different value for a limit; for a limit based on law or safety, only a stricter one.',
    example: 'limit strength-loss 30 %',
    list: 'limits',
    key: ['name'],
    needs: 'value',
    fields: [
      BECAUSE,
      {
        word: 'authorized',
        form: 'by <by:text> , until <until:date>',
        summary: 'The waiver or permit condition that allows a looser limit than the law, and its last day.',
        example: 'authorized by "waiver 107W-2026-0123", until 2026-12-31',
        group: 'authorized',
      },
    ],
  },
  {
    word: 'season',
    under: 'practice',
    form: '<season:nesting|raptor nesting|bat maternity|pruning> <days:monthDays>',
    summary: 'A different season from that of the region; for pruning, the days on which not to prune.',
    example: 'season nesting 02-01..08-31',
    list: 'seasons',
    key: ['season'],
    needs: 'days',
    fields: [BECAUSE],
  },
  {
    word: 'approach',
    under: 'practice',
    form: '<distance:length> [up to <voltage:voltage>]',
    summary:
      'How far people who are not qualified keep from lines up to a voltage, or from all lines, where no law of the region is on record.',
    example: 'approach 4 m up to 33 kV',
    list: 'approaches',
    key: ['voltage'],
    needs: 'distance',
    fields: [BECAUSE],
  },
  {
    word: 'severity',
    under: 'practice',
    form: '<rule:rule> <level:error|warning|note|off>',
    summary:
      'A different severity for the findings of a rule; for a rule based on law or safety, only a higher one.',
    example: 'severity live-crown-ratio note',
    list: 'severities',
    key: ['rule'],
    needs: 'level',
    fields: [BECAUSE],
  },
];
