/**
 * Ordinary trees, as people write them: usual species of streets and parks, whole feet or half metres, none to three
 * defects with some of their readings, targets, ratings, work. Long because it is one table of what usually stands in an
 * inventory, read as one. ORDINARY_TREES says how many are drawn, PROPERTY_SEED which.
 */

import fc from 'fast-check';
import { DEFECT_KINDS } from '../../grammar/fields-tree.ts';
import { formatDate, parseDate } from '../../server/base/dates.ts';
import {
  CONSEQUENCES,
  LIKELIHOODS_OF_FAILURE,
  LIKELIHOODS_OF_IMPACT,
  RISK_RATINGS,
  riskRating,
} from '../../server/practice/risk.ts';
import type { Block, Line, OrdinaryTree, Reading, Token } from './record.ts';

/** Some hundred in the suite; 10 000 where somebody waits for them. */
export const TREES = Number(process.env.ORDINARY_TREES ?? 200);

const TOWN = [
  'Acer platanoides',
  'Acer rubrum',
  "Acer rubrum 'October Glory'",
  'Acer saccharinum',
  'Acer macrophyllum',
  'Platanus × hispanica',
  'Liquidambar styraciflua',
  'Quercus rubra',
  'Quercus palustris',
  'Quercus garryana',
  'Tilia cordata',
  'Tilia americana',
  'Ulmus americana',
  'Fraxinus pennsylvanica',
  'Gleditsia triacanthos',
  'Zelkova serrata',
  'Ginkgo biloba',
  'Liriodendron tulipifera',
  "Pyrus calleryana 'Bradford'",
  'Prunus serrulata',
  'Betula pendula',
  'Juglans nigra',
  'Populus trichocarpa',
  'Pseudotsuga menziesii',
  'Thuja plicata',
  'Cedrus atlantica',
  'Pinus ponderosa',
  'Picea abies',
  'Sequoiadendron giganteum',
] as const;

const PARISH = [
  'Quercus robur',
  'Fagus sylvatica',
  'Fraxinus excelsior',
  'Acer pseudoplatanus',
  'Acer campestre',
  'Tilia × europaea',
  'Aesculus hippocastanum',
  'Platanus × hispanica',
  'Betula pendula',
  'Salix alba',
  'Populus nigra',
  'Prunus avium',
  'Carpinus betulus',
  'Robinia pseudoacacia',
  'Castanea sativa',
  'Pinus sylvestris',
  'Cedrus libani',
  'Taxus baccata',
  'Malus domestica',
] as const;

const FUNGI = [
  'Ganoderma applanatum',
  'Kretzschmaria deusta',
  'Armillaria mellea',
  'Meripilus giganteus',
  'Laetiporus sulphureus',
  'Fomes fomentarius',
  'Inonotus hispidus',
  'Trametes versicolor',
] as const;

const BEARINGS = ['N', 'NE', 'E', 'SE', 'S', 'SW', 'W', 'NW'] as const;
const TARGETS = [
  ['Sidewalk', 'people'],
  ['Play lawn', 'people'],
  ['Bus stop', 'people'],
  ['School door', 'people'],
  ['Main Street', 'road'],
  ['Parked cars', 'vehicles'],
  ['House', 'building'],
  ['Garage', 'building'],
  ['Service line', 'utility'],
] as const;

const line = (word: string, ...tokens: Token[]): Line => ({ word, tokens });

/** Draws what one hand writes of one tree. */
class Hand {
  constructor(
    private readonly gen: fc.GeneratorValue,
    readonly site: OrdinaryTree['site'],
  ) {}

  whole(min: number, max: number): number {
    return this.gen(fc.integer, { min, max });
  }

  pick<T>(list: readonly T[]): T {
    return list[this.gen(fc.nat, { max: list.length - 1 })]!;
  }

  /** @param share in per cent */
  often(share: number): boolean {
    return this.gen(fc.nat, { max: 99 }) < share;
  }

  /** Each line with the chance, in per cent, that somebody wrote it. */
  some(...lines: readonly (readonly [share: number, () => Line])[]): readonly Line[] {
    return lines.flatMap(([share, of]) => (this.often(share) ? [of()] : []));
  }

  /** What is taped on the stem: whole inches or centimetres. */
  small(inches: number): Reading {
    return this.site === 'town'
      ? { form: 'exact', value: Math.max(1, Math.round(inches)), unit: 'in' }
      : { form: 'exact', value: Math.max(1, Math.round(inches * 2.54)), unit: 'cm' };
  }

  /** Heights and distances: whole feet, half metres. */
  far(feet: number): Reading {
    return this.site === 'town'
      ? { form: 'exact', value: Math.max(1, Math.round(feet)), unit: 'ft' }
      : { form: 'exact', value: Math.max(0.5, Math.round(feet * 0.3048 * 2) / 2), unit: 'm' };
  }

  /** Of a root plate that is pulled. */
  tilt(): Reading {
    return { form: 'exact', value: this.whole(1, 24) / 100, unit: 'deg' };
  }

  /** Of a rope that pulls. */
  slope(): Reading {
    return { form: 'exact', value: this.whole(8, 35), unit: 'deg' };
  }

  share(percent: number): Reading {
    return { form: 'exact', value: percent, unit: '%' };
  }

  /** A reading that was not taken exactly, more often than not. */
  unsure(reading: Reading): Reading {
    const { value, unit } = reading;
    const step = value > 10 ? 2 : value >= 2 ? 1 : value / 2;
    switch (this.whole(0, 9)) {
      case 0:
      case 1:
        return { ...reading, form: 'about' };
      case 2:
      case 3:
        return { form: 'range', value: value - step, to: value + step, unit };
      case 4:
        return { ...reading, form: 'above' };
      default:
        return reading;
    }
  }

  /** A day before today, of the last months. */
  past(months: number): string {
    return formatDate(LAST - this.whole(0, months * 30));
  }
}

const LAST = parseDate('2026-05-29')!;
const NEXT = parseDate('2026-06-03')!;

/** Sizes that belong together: what a tree of this girth usually is, grown in the open or not quite. */
interface Size {
  /** in */
  readonly dbh: number;
  /** ft */
  readonly height: number;
  readonly base: number;
  readonly spread: number;
}

function sizeOf(hand: Hand): Size {
  const dbh = hand.whole(4, 48);
  const height = Math.round((16 + dbh * 1.15) * (hand.whole(75, 125) / 100));
  return {
    dbh,
    height,
    base: Math.max(3, Math.round((height * hand.whole(10, 35)) / 100)),
    spread: Math.max(6, Math.round((height * hand.whole(40, 95)) / 100)),
  };
}

function treeBlock(hand: Hand, { dbh, height, base, spread }: Size): Block {
  const age = dbh < 8 ? 'young' : dbh < 16 ? 'semi-mature' : dbh < 34 ? 'mature' : 'over-mature';
  const vigor = hand.pick(['good', 'good', 'good', 'good', 'fair', 'fair', 'fair', 'poor', 'poor', 'dead']);
  const crown = line('crown', 'from', hand.far(base), ',', hand.far(spread), 'wide');
  return {
    head: `tree ${hand.whole(1, 400)}`,
    lines: hand.some(
      [96, () => line('species', hand.pick(hand.site === 'town' ? TOWN : PARISH))],
      [97, () => line('dbh', hand.small(dbh))],
      [92, () => line('height', hand.often(40) ? { ...hand.far(height), form: 'about' } : hand.far(height))],
      [88, () => crown],
      [12, () => lean(hand)],
      [14, () => line('soil', hand.pick(['firm', 'firm', 'compacted', 'wet', 'cracked', 'heaving']))],
      [85, () => line('age', hand.often(4) ? 'veteran' : age)],
      [90, () => line('vigor', vigor)],
      [4, () => line('wind-factor', hand.pick(['1.1', '1.2', '1.3']), '"gap in the row"')],
      [4, () => line('hill', 'ridge', ',', hand.far(60), 'high, half-length', hand.far(300), ', at crest')],
      [4, () => line('protected', 'permit', 'TR-17', ',', 'until', '2026-12-31')],
      [5, () => line('stressed', 'by', hand.pick(['drought', 'storm', 'construction', 'insects']))],
    ),
  };
}

const lean = (hand: Hand): Line =>
  line(
    'lean',
    { form: 'exact', value: hand.pick([5, 8, 10, 12, 15, 20, 25, 35]), unit: 'deg' },
    'toward',
    hand.pick(BEARINGS),
    ...hand.pick<readonly string[]>([
      [],
      [],
      [',', 'steady'],
      [',', 'steady'],
      [',', 'increasing'],
      [',', 'new'],
    ]),
  );

const inspection = (hand: Hand, date: string): Block => ({
  head: `inspection ${date} from ${hand.pick(['ground', 'ground', 'ground', 'ground', 'rope', 'lift'])}`,
  lines: hand.some(
    [95, () => line('by', hand.pick(['RV', 'TL']))],
    [80, () => line('level', hand.pick(['limited', 'basic', 'basic', 'basic', 'advanced']))],
    [15, () => line('with', hand.pick(['mallet', 'mallet, probe', 'binoculars', 'tomograph']))],
  ),
});

/** Two stems of a fork, or a limb that somebody wrote down. */
function parts(hand: Hand, { dbh, height, base }: Size): readonly Block[] {
  const from = hand.far(base * 0.7);
  const union = () => hand.pick(['sound', 'sound', 'included bark', 'included bark', 'cracked', 'unseen']);
  if (hand.often(8)) {
    const of = union();
    const pair = (name: string, other: string, share: number): Block => ({
      head: `stem ${name}`,
      lines: [
        line('from', from),
        ...hand.some(
          [85, () => line('diameter', hand.small((dbh * share) / 100))],
          [40, () => line('height', hand.far(height - 3))],
          [40, () => line('length', hand.far(Math.max(4, height - base)))],
          [25, () => line('crown', 'from', hand.far(base), ',', hand.far(hand.whole(8, 30)), 'wide')],
          [15, () => line('lean', `${hand.whole(5, 40)} deg`)],
        ),
        line(
          'union',
          of,
          ...(of === 'included bark' && hand.often(30) ? [',', hand.pick(['occluded', 'at the apex'])] : []),
          ',',
          'with',
          other,
        ),
      ],
    });
    const both = [pair('North', 'South', hand.whole(50, 72)), pair('South', 'North', hand.whole(45, 72))];
    const held = hand.often(25)
      ? [support(hand, hand.pick(['cable', 'cable', 'cable', 'brace']), height, base)]
      : [];
    return [...both, ...held];
  }
  if (!hand.often(10)) return hand.often(2) ? [support(hand, 'guy', height, base)] : [];
  return [
    ...(hand.often(15) ? [support(hand, 'prop', height, base)] : []),
    {
      head: 'limb L1',
      lines: [
        line('from', hand.far(base), ',', 'facing', hand.pick(BEARINGS)),
        ...hand.some(
          [90, () => line('diameter', hand.small(Math.max(3, dbh / 3)))],
          [70, () => line('length', hand.far(hand.whole(8, 30)))],
          [50, () => line('union', union())],
          [40, () => line('parent', hand.small(Math.max(6, dbh * 0.8)))],
          [30, () => line('lean', `${hand.whole(30, 95)} deg`)],
          [10, () => line('foliage', hand.pick(['along its length', 'at the end only']))],
        ),
      ],
    },
  ];
}

const HELD = {
  cable: ['North', ',', 'South'],
  brace: ['North', ',', 'South'],
  prop: ['L1'],
  guy: [],
} as const;

/** In place: between the stems of a fork, under a limb, or from the tree to the ground. */
function support(hand: Hand, kind: keyof typeof HELD, height: number, base: number): Block {
  const holds = HELD[kind];
  return {
    head: `support C1 ${kind}`,
    lines: [
      ...(holds.length > 0 && hand.often(95) ? [line('holds', ...holds)] : []),
      ...hand.some(
        [
          80,
          () =>
            line(
              'fixed',
              'at',
              hand.far(hand.whole(base, Math.max(base, height - 4))),
              ...(hand.often(15) ? [',', `${hand.whole(0, 45)} deg from horizontal`] : []),
            ),
        ],
        [60, () => line('rated', `${hand.whole(5, 60)} kN`)],
        [25, () => line('breaking', `${hand.whole(20, 160)} kN`)],
        [85, () => line('installed', hand.past(120))],
        [60, () => line('inspected', hand.past(24))],
      ),
    ],
  };
}

type Kind = (typeof DEFECT_KINDS)[number];
/** Fungi twice: some properties are about those at the butt, which are few. */
const KINDS: readonly Kind[] = [...DEFECT_KINDS, 'fungus'];

/** Of which part a defect usually is, and what somebody usually reads of it. */
function defect(hand: Hand, id: string, size: Size, names: readonly string[]): Block {
  const kind = hand.pick(KINDS);
  const head = `defect ${id} ${kind}`;
  const atBase = kind.startsWith('root') || kind === 'girdling root' || kind === 'trench';
  const part = !atBase && names.length > 0 && hand.often(40) ? hand.pick(names) : 'trunk';
  // On a stem or limb from where it begins.
  const least = part === 'trunk' ? 1 : size.base;
  const up = atBase ? 0 : hand.whole(least, Math.max(least, Math.round(size.height * 0.5)));
  const low = kind === 'fungus' && hand.often(60) ? 1 : up;
  const on = () =>
    line(
      'on',
      part,
      'at',
      low === 0 ? { form: 'exact', value: 0, unit: hand.site === 'town' ? 'ft' : 'm' } : hand.far(low),
      ...(hand.often(60) ? [',', 'facing', hand.pick(BEARINGS)] : []),
    );
  const state = () =>
    line('state', hand.pick(['suspected', 'steady', 'steady', 'steady', 'increasing', 'healed']));
  const closed = () => line('closed', '2026-05-30', '"taken off"');
  const thick = part === 'trunk' ? size.dbh : Math.max(3, Math.round(size.dbh / (part === 'L1' ? 3 : 1.6)));
  return {
    head,
    lines: [...hand.some([92, on], [30, state], [3, closed]), ...readings(hand, kind, thick, size.height)],
  };
}

function readings(hand: Hand, kind: Kind, thick: number, height: number): readonly Line[] {
  const draw = (...lines: readonly (readonly [share: number, of: () => Line])[]) => hand.some(...lines);
  const diameter = () => line('diameter', hand.small(Math.max(3, thick - hand.whole(0, 2))));
  const length = (inches: number) => () => line('length', hand.unsure(hand.small(inches)));
  const width = (inches: number) => () => line('width', hand.unsure(hand.small(inches)));
  const share = (of: string, from: number, to: number) => () =>
    line('share', hand.unsure(hand.share(5 * hand.whole(from / 5, to / 5))), 'of', of);
  switch (kind) {
    case 'cavity':
    case 'decay':
      return draw(
        [85, diameter],
        [12, () => line('bark', hand.small(1))],
        [60, () => opening(hand, kind, thick)],
        [45, () => line('depth', hand.unsure(hand.small((thick * hand.whole(15, 60)) / 100)))],
        [60, () => walls(hand, thick)],
      );
    case 'crack':
      return draw(
        [80, length(hand.whole(6, 96))],
        [50, width(1)],
        [30, diameter],
        [40, () => line('runs', hand.pick(['through', 'deep', 'shallow', 'into the soil']))],
      );
    case 'included bark':
      return draw([40, length(hand.whole(6, 30))], [20, share('union', 20, 70)]);
    case 'dead wood':
      return draw(
        [60, () => line('diameter', hand.unsure(hand.small(hand.whole(1, 8))))],
        [50, length(hand.whole(24, 144))],
        [30, share('crown', 5, 50)],
      );
    case 'hanger':
      return draw(
        [70, () => line('diameter', hand.unsure(hand.small(hand.whole(1, 9))))],
        [60, length(hand.whole(36, 180))],
      );
    case 'fungus':
      return draw([85, () => line('species', hand.pick(FUNGI))], [50, width(hand.whole(3, 14))]);
    case 'canker':
    case 'wound':
    case 'loose bark':
      return draw(
        [60, length(hand.whole(6, 48))],
        [55, width(hand.whole(2, 14))],
        [55, share('circumference', 5, kind === 'wound' ? 40 : 65)],
      );
    case 'woodpecker holes':
      return draw([50, width(2)], [20, diameter]);
    case 'root decay':
    case 'root loss':
      return draw([75, share('roots', 5, 70)]);
    case 'trench':
      return draw(
        [85, () => line('distance', hand.unsure(hand.far(hand.whole(1, 12))), 'toward', hand.pick(BEARINGS))],
        [40, () => line('dug', hand.past(24))],
      );
    case 'girdling root':
      return draw([70, share('circumference', 10, 60)]);
    case 'weak union':
      return draw([40, share('union', 20, 70)], [20, length(Math.max(6, height / 2))]);
  }
}

function opening(hand: Hand, kind: Kind, thick: number): Line {
  if (kind === 'decay' && hand.often(70)) return line('opening', 'closed');
  const wide = hand.small((thick * hand.whole(10, 70)) / 100);
  const tall = hand.small(hand.whole(4, 40));
  return line('opening', wide, 'wide', ...(hand.often(60) ? [',', tall, 'tall'] : []));
}

/** Later readings of the walls of a hollow. */
function instrument(hand: Hand, id: string, thick: number): Block {
  const lines = hand.some([40, () => line('error', hand.small(1))]);
  const head = (kind: string) => `${kind} ${hand.past(8)} of ${id}`;
  if (hand.often(60)) return { head: head('drilling'), lines: [...lines, wallsAt(hand, thick)] };
  const sound = () => line('sound', hand.share(hand.whole(20, 90)), 'at', hand.pick(BEARINGS));
  return { head: head('tomogram'), lines: [...lines, hand.often(50) ? wallsAt(hand, thick) : sound()] };
}

const pullTest = (hand: Hand, { height }: Size): Block => ({
  head: `pull test ${hand.past(12)} toward ${hand.pick(BEARINGS)}`,
  lines: hand.some(
    [90, () => line('force', { form: 'exact', value: hand.whole(5, 30), unit: 'kN' })],
    [90, () => line('rope', 'at', hand.far(height / 2), ',', hand.slope(), 'from horizontal')],
    [85, () => line('inclination', hand.tilt(), ',', hand.tilt())],
  ),
});

/** One reading of all round, or up to four with their bearings. */
function walls(hand: Hand, thick: number): Line {
  const wall = () => hand.unsure(hand.small((thick * hand.whole(6, 40)) / 100));
  return hand.often(40) ? line('wall', wall()) : wallsAt(hand, thick);
}

function wallsAt(hand: Hand, thick: number): Line {
  const wall = () => hand.unsure(hand.small((thick * hand.whole(6, 40)) / 100));
  const from = hand.whole(0, 7);
  const count = hand.whole(1, 4);
  return line(
    'wall',
    ...Array.from({ length: count }, (_, i) => [
      ...(i === 0 ? [] : [',']),
      wall(),
      'at',
      BEARINGS[(from + 2 * i) % 8]!,
    ]).flat(),
  );
}

function target(hand: Hand, [name, kind]: (typeof TARGETS)[number]): Block {
  const distance = () =>
    line('distance', hand.far(hand.whole(2, 45)), ...(hand.often(50) ? ['toward', hand.pick(BEARINGS)] : []));
  return {
    head: `target "${name}"`,
    lines: hand.some(
      [93, distance],
      [88, () => line('occupied', hand.pick(['rare', 'occasional', 'frequent', 'constant']))],
      [85, () => line('kind', kind)],
    ),
  };
}

function risk(hand: Hand, name: string, defects: readonly string[]): Block {
  const failure = hand.pick(LIKELIHOODS_OF_FAILURE);
  const impact = hand.pick(LIKELIHOODS_OF_IMPACT);
  const consequences = hand.pick(CONSEQUENCES);
  // Now and then the sheet is not followed.
  const rating = hand.often(95) ? riskRating(failure, impact, consequences) : hand.pick(RISK_RATINGS);
  return {
    head: `risk "${name}"${defects.length > 0 && hand.often(70) ? ` from ${hand.pick(defects)}` : ''}`,
    lines: hand.some(
      [97, () => line('failure', failure)],
      [97, () => line('impact', impact)],
      [97, () => line('consequences', consequences)],
      [95, () => line('rating', rating)],
      [80, () => line('within', hand.pick(['1 year', '2 years', '3 years']))],
      [12, () => line('because', '"sound at the mallet, and unchanged in two visits"')],
    ),
  };
}

const PRESCRIBED = [
  'reduce',
  'reduce',
  'reduce',
  'thin',
  'raise',
  'clean',
  'clean',
  'fell',
  'fell',
  'restore',
  'pollard',
  'cable',
  'keep',
  'watch',
  'investigate',
  'monolith',
] as const;

const WINDOWS = [
  '2026-06-01..2026-06-12',
  '2026-06-15..2026-07-31',
  '2026-09-14..2026-10-30',
  '2026-10-01..2026-12-15',
  '2026-11-01..2027-02-15',
  '2027-03-01..2027-04-15',
] as const;

function prescription(
  hand: Hand,
  id: string,
  size: Size,
  defects: readonly string[],
  names: readonly string[],
): Block {
  const kind = hand.pick(PRESCRIBED);
  const terms = () =>
    hand.some(
      [88, () => line('between', hand.pick(WINDOWS))],
      [80, () => line('priority', hand.pick(['immediate', 'high', 'moderate', 'moderate', 'low']))],
      [70, () => line('because', '"as agreed with the owner"')],
      [90, () => line('by', hand.pick(['RV', 'TL']))],
      [60, () => line('with', hand.pick(['ROPE', 'CRANE']))],
    );
  const answered = defects.length > 0 && hand.often(75) ? [line('for', defects.join(', '))] : [];
  return {
    head: `prescription ${id} ${kind}`,
    lines: [...measures(hand, kind, size, names), ...answered, ...terms()],
  };
}

function measures(
  hand: Hand,
  kind: (typeof PRESCRIBED)[number],
  { height, base, spread }: Size,
  names: readonly string[],
): readonly Line[] {
  const to = (feet: number, share: number) => [hand.far(feet), 'to', hand.far((feet * share) / 100)];
  const dose = () => line('dose', hand.unsure(hand.share(hand.whole(5, 35))));
  const cuts = () => line('cuts', 'up', 'to', hand.small(hand.whole(1, 4)), ',', 'laterals', '0.4');
  switch (kind) {
    case 'reduce':
      return hand.some(
        [70, () => line('height', ...to(height, hand.whole(75, 94)))],
        [40, () => line('spread', ...to(spread, hand.whole(80, 95)))],
        [75, dose],
        [60, cuts],
        [50, () => line('method', 'reduction cuts')],
        [20, () => line('stages', String(hand.whole(2, 4)))],
        [40, () => line('exclusion', hand.far(hand.whole(10, 60)))],
      );
    case 'raise':
      return hand.some([80, () => line('base', ...to(base, hand.whole(115, 160)))], [70, dose], [40, cuts]);
    case 'thin':
    case 'clean':
    case 'restore':
    case 'pollard':
      return hand.some(
        [75, dose],
        [50, cuts],
        [50, () => line('method', 'collar cuts')],
        [names.length > 0 && kind === 'clean' ? 40 : 0, () => line('remove', hand.pick(names))],
      );
    case 'fell':
      return hand.some(
        [75, () => line('exclusion', hand.far(hand.whole(20, 120)))],
        ...rigging(hand, height),
        [70, () => line('stump', 'grind', 'to', hand.small(8))],
        [40, () => line('replace', '1', 'Quercus robur')],
      );
    case 'cable':
      return hand.some(
        [50, () => line('fixed', 'at', hand.far(hand.whole(base, height)))],
        [40, () => line('rated', `${hand.whole(5, 40)} kN`)],
      );
    case 'monolith':
      return hand.some([90, () => line('height', ...to(height, hand.whole(25, 60)))]);
    default:
      return [];
  }
}

/** How the pieces of a tree come down. */
function rigging(hand: Hand, height: number): readonly (readonly [share: number, of: () => Line])[] {
  const thick = hand.whole(6, 24);
  const narrow = () => (hand.often(60) ? ['to', hand.small(thick - 2)] : []);
  const isRigged = hand.often(45);
  const legs = () => [',', 'legs', `${hand.whole(0, 90)} deg`];
  return [
    [60, () => line('piece', hand.far(hand.whole(3, 12)), ',', hand.small(thick), ...narrow(), 'thick')],
    [
      isRigged ? 100 : 0,
      () =>
        line(
          'rigged',
          ...hand.pick([
            ['let run'],
            ['caught', ',', 'drop', hand.far(hand.whole(2, 8))],
            ['caught', ',', 'drop', hand.far(4), ',', 'rope', hand.far(hand.whole(20, 90))],
          ]),
          ...(hand.often(50) ? legs() : []),
        ),
    ],
    [
      isRigged ? 75 : 0,
      () =>
        line(
          'anchor',
          'trunk',
          'at',
          hand.far(hand.whole(6, Math.max(6, Math.round(height * 0.7)))),
          ...(hand.often(70) ? [',', hand.unsure(hand.small(hand.whole(6, 24))), 'thick'] : []),
        ),
    ],
    [40, () => line('takedown', 'dismantled')],
  ];
}

function followUp(hand: Hand, defects: readonly string[]): Block {
  const kind = hand.pick([
    're-inspection',
    'climbing inspection',
    'tomogram',
    'resistance drilling',
    'pull test',
    'root inspection',
  ]);
  return {
    head: `follow-up F1 ${kind}`,
    lines: [
      ...(defects.length > 0 && hand.often(80) ? [line('of', defects.join(', '))] : []),
      ...hand.some(
        [90, () => line('due', formatDate(NEXT + hand.whole(0, 300)))],
        [60, () => line('by', 'TL')],
      ),
    ],
  };
}

const conductor = (hand: Hand): Block => ({
  head: 'conductor "Street line"',
  lines: hand.some(
    [90, () => line('voltage', hand.pick(['12.5 kV', '240 V']))],
    [90, () => line('distance', hand.far(hand.whole(3, 30)))],
    [70, () => line('height', hand.far(hand.whole(18, 40)))],
  ),
});

const nestCheck = (hand: Hand): Block => ({
  head: `nest check ${hand.past(2)} from ${hand.pick(['ground', 'rope', 'lift'])}`,
  lines: [
    line('by', 'HK'),
    line('found', hand.pick(['none', 'none', 'none', 'old', 'active Turdus migratorius'])),
  ],
});

const batCheck = (hand: Hand): Block => ({
  head: `bat check ${hand.past(2)} from ${hand.pick(['ground', 'rope'])}`,
  lines: [line('by', 'HK'), line('found', hand.pick(['none', 'none', 'none', 'signs']))],
});

const accept = (hand: Hand): Block => ({
  head: `accept ${hand.pick(['season-dose', 'strength-loss-section', 'inspection-old', 'cut-diameter'])}`,
  lines: [
    line('until', '2027-03-01'),
    line('by', 'RV'),
    line('because', '"discussed on site with the owner"'),
  ],
});

function drawn(gen: fc.GeneratorValue): OrdinaryTree {
  const site = gen(fc.nat, { max: 9 }) < 7 ? 'town' : 'parish';
  const hand = new Hand(gen, site);
  const size = sizeOf(hand);
  const stems = parts(hand, size);
  const names = stems.flatMap(({ head }) => (/^(?:stem|limb) /.test(head) ? [head.split(' ')[1]!] : []));
  const ids = ['A', 'B', 'C'].slice(0, hand.pick([0, 0, 0, 0, 1, 1, 1, 1, 2, 2, 3]));
  const defects = ids.map(id => defect(hand, id, size, names));
  const targets = hand.often(65) ? [hand.pick(TARGETS)] : [];
  if (targets.length > 0 && hand.often(25)) {
    const second = hand.pick(TARGETS);
    if (second !== targets[0]) targets.push(second);
  }
  const jobs = ['R1', 'R2'].slice(0, hand.pick([0, 0, 0, 0, 0, 1, 1, 1, 1, 2]));
  const last = hand.past(20);
  const earlier = formatDate(parseDate(last)! - hand.whole(200, 1000));
  return {
    site,
    blocks: [
      treeBlock(hand, size),
      ...(hand.often(25) ? [inspection(hand, earlier)] : []),
      ...(hand.often(94) ? [inspection(hand, last)] : []),
      ...stems,
      ...defects,
      ...defects.flatMap(({ head }) =>
        /cavity|decay$/.test(head) && !head.includes('root') && hand.often(20)
          ? [instrument(hand, head.split(' ')[1]!, size.dbh)]
          : [],
      ),
      ...(hand.often(6) ? [pullTest(hand, size)] : []),
      ...targets.map(one => target(hand, one)),
      ...targets.flatMap(([name]) => (hand.often(35) ? [risk(hand, name, ids)] : [])),
      ...(hand.often(6) ? [conductor(hand)] : []),
      ...(hand.often(15) ? [nestCheck(hand)] : []),
      ...(hand.often(10) ? [batCheck(hand)] : []),
      ...jobs.map(id => prescription(hand, id, size, ids, names)),
      ...(hand.often(18) ? [followUp(hand, ids)] : []),
      ...(hand.often(4) ? [accept(hand)] : []),
    ],
  };
}

export const ordinaryTree: fc.Arbitrary<OrdinaryTree> = fc.gen().map(drawn);
