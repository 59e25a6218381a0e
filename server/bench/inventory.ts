/** Generated inventories: the same records as notation and as JSON, so that both can be read and compared. */

interface QuantityRecord {
  readonly low: number;
  readonly high: number;
  readonly unit: string;
  readonly known: 'measured' | 'estimated' | 'range' | 'at least';
}

export interface TreeRecord {
  readonly tag: string;
  readonly name?: string;
  readonly species: string;
  readonly position: { readonly latitude: number; readonly longitude: number };
  readonly dbh: QuantityRecord;
  readonly height: QuantityRecord;
  readonly crown: { readonly base: QuantityRecord; readonly spread: QuantityRecord };
  readonly age: string;
  readonly vigor: string;
  readonly inspections: readonly { readonly date: string; readonly from: string; readonly by: string }[];
  readonly defects: readonly {
    readonly id: string;
    readonly kind: string;
    readonly at: QuantityRecord;
    readonly facing: string;
    readonly diameter: QuantityRecord;
    readonly wall: QuantityRecord;
  }[];
  readonly nestChecks: readonly {
    readonly date: string;
    readonly from: string;
    readonly by: string;
    readonly found: string;
  }[];
  readonly prescriptions: readonly {
    readonly id: string;
    readonly kind: string;
    readonly dose: QuantityRecord;
    readonly between: { readonly from: string; readonly to: string };
    readonly because: string;
  }[];
}

/** A small repeatable generator (mulberry32), so that every run reads the same trees. */
export function randomFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

const SPECIES = [
  'Acer macrophyllum',
  'Quercus garryana',
  'Pseudotsuga menziesii',
  'Thuja plicata',
  'Platanus × hispanica',
  'Prunus serotina',
  'Fraxinus latifolia',
  'Tilia cordata',
  'Acer rubrum',
  'Betula pendula',
];
const AGES = ['young', 'semi-mature', 'mature', 'over-mature'];
const VIGORS = ['good', 'good', 'fair', 'poor'];

const measured = (value: number, unit: string): QuantityRecord => ({
  low: value,
  high: value,
  unit,
  known: 'measured',
});

/** Trees with a position, sizes and an inspection; 2 %, or another share, have a measured cavity, 5 % a prescription. */
export function generateTrees(count: number, firstTag = 1, hollows = 0.02): TreeRecord[] {
  const random = randomFrom(20260601 + firstTag);
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)]!;
  const whole = (low: number, high: number) => low + Math.floor(random() * (high - low));
  return Array.from({ length: count }, (_, i) => {
    const dbh = whole(6, 44);
    // Grown in the open: stout, with a deep crown.
    const height = whole(16, 24) + dbh;
    const hollow = random() < hollows;
    const prescribed = random() < 0.05;
    const date = `2026-0${whole(3, 6)}-${String(whole(1, 29)).padStart(2, '0')}`;
    return {
      tag: String(firstTag + i),
      ...(random() < 0.1 ? { name: `Tree by gate ${whole(1, 400)}` } : {}),
      species: pick(SPECIES),
      position: {
        latitude: Number((44.3 + random() / 20).toFixed(5)),
        longitude: Number((-122.9 + random() / 20).toFixed(5)),
      },
      dbh: measured(dbh, 'in'),
      height: { ...measured(height, 'ft'), known: 'estimated' },
      crown: { base: measured(whole(4, 12), 'ft'), spread: measured(whole(12, 60), 'ft') },
      age: pick(AGES),
      vigor: pick(VIGORS),
      inspections: [{ date, from: 'ground', by: 'RV' }],
      defects: hollow
        ? [
            {
              id: 'A',
              kind: 'cavity',
              at: measured(whole(3, 20), 'ft'),
              facing: pick(['N', 'SW', 'E', 'SSE']),
              diameter: measured(dbh, 'in'),
              wall: { low: 2, high: whole(3, 6), unit: 'in', known: 'range' },
            },
          ]
        : [],
      nestChecks: prescribed ? [{ date: '2026-05-28', from: 'ground', by: 'RV', found: 'none' }] : [],
      prescriptions: prescribed
        ? [
            {
              id: 'R1',
              kind: 'reduce',
              dose: measured(whole(5, 30), '%'),
              between: { from: '2026-10-01', to: '2026-11-30' },
              because: 'lighten the load',
            },
          ]
        : [],
    };
  });
}

const show = ({ low, high, unit, known }: QuantityRecord): string =>
  known === 'range'
    ? `${low}..${high} ${unit}`
    : `${known === 'estimated' ? '~' : known === 'at least' ? '> ' : ''}${low} ${unit}`;

/** One tree in the notation, canonically printed. */
export function printTree(tree: TreeRecord): string {
  const lines = [
    `tree ${tree.tag}${tree.name ? ` "${tree.name}"` : ''}`,
    `  species     ${tree.species}`,
    `  position    ${tree.position.latitude}, ${tree.position.longitude}`,
    `  dbh         ${show(tree.dbh)}`,
    `  height      ${show(tree.height)}`,
    `  crown       from ${show(tree.crown.base)}, ${show(tree.crown.spread)} wide`,
    `  age         ${tree.age}`,
    `  vigor       ${tree.vigor}`,
  ];
  for (const { date, from, by } of tree.inspections)
    lines.push(`  inspection ${date} from ${from}`, `    by        ${by}`);
  for (const defect of tree.defects) {
    lines.push(
      `  defect ${defect.id} ${defect.kind}`,
      `    on        trunk at ${show(defect.at)}, facing ${defect.facing}`,
      `    diameter  ${show(defect.diameter)}`,
      `    wall      ${show(defect.wall)}`,
    );
  }
  for (const { date, from, by, found } of tree.nestChecks) {
    lines.push(`  nest check ${date} from ${from}`, `    by        ${by}`, `    found     ${found}`);
  }
  for (const prescription of tree.prescriptions) {
    lines.push(
      `  prescription ${prescription.id} ${prescription.kind}`,
      `    dose      ${show(prescription.dose)}`,
      `    between   ${prescription.between.from}..${prescription.between.to}`,
      `    because   "${prescription.because}"`,
    );
  }
  return `${lines.join('\n')}\n`;
}

/** The same tree with two visits before that one: each measured it, and read its cavity again. */
export function printVisits(tree: TreeRecord): string {
  const visit = (years: number): string => {
    const { date, from, by } = tree.inspections[0]!;
    const smaller = ({ low, high, ...rest }: QuantityRecord): QuantityRecord => ({
      ...rest,
      low: low - years / 10,
      high: high - years / 10,
    });
    return [
      `  inspection ${Number(date.slice(0, 4)) - years}${date.slice(4)} from ${from}`,
      `    by        ${by}`,
      `    dbh       ${show(smaller(tree.dbh))}`,
      `    height    ${show(smaller(tree.height))}`,
      `    vigor     ${tree.vigor}`,
      ...tree.defects.flatMap(defect => [
        `  defect ${defect.id} ${defect.kind}`,
        `    on        trunk at ${show(defect.at)}, facing ${defect.facing}`,
        `    diameter  ${show(smaller(defect.diameter))}`,
        `    wall      ${show(defect.wall)}`,
      ]),
      '',
    ].join('\n');
  };
  const text = printTree(tree);
  const at = text.indexOf('  inspection ');
  return text.slice(0, at) + visit(6) + visit(3) + text.slice(at);
}

export const SITE_TEXT = `site "Fernhollow Court"
  region      US-OR
  interval    24 months

person RV "Ruth Varga"
  qualified   consulting arborist

`;

export const printTrees = (trees: readonly TreeRecord[]): string =>
  SITE_TEXT + trees.map(printTree).join('\n');

const quantity = {
  type: 'object',
  additionalProperties: false,
  required: ['low', 'high', 'unit', 'known'],
  properties: {
    low: { type: 'number', minimum: 0 },
    high: { type: 'number', minimum: 0 },
    unit: { enum: ['in', 'ft', 'mm', 'cm', 'm', '%'] },
    known: { enum: ['measured', 'estimated', 'range', 'at least'] },
  },
};
const date = { type: 'string', format: 'date' };
const object = (properties: Record<string, unknown>, optional: readonly string[] = []) => ({
  type: 'object',
  additionalProperties: false,
  required: Object.keys(properties).filter(name => !optional.includes(name)),
  properties,
});
const list = (items: unknown) => ({ type: 'array', items });
const word = { type: 'string', minLength: 1 };

/** What a careful JSON format for the same records would demand. */
export const TREES_SCHEMA = list(
  object(
    {
      tag: { type: 'string', pattern: '^[A-Za-z0-9._/-]+$' },
      name: word,
      species: { type: 'string', pattern: "^(× )?[A-Z][a-zë-]+( (× )?[a-zë-]+)?( '[^']+')?$" },
      position: object({
        latitude: { type: 'number', minimum: -90, maximum: 90 },
        longitude: { type: 'number', minimum: -180, maximum: 180 },
      }),
      dbh: quantity,
      height: quantity,
      crown: object({ base: quantity, spread: quantity }),
      age: { enum: AGES },
      vigor: { enum: ['good', 'fair', 'poor', 'dead'] },
      inspections: list(object({ date, from: word, by: word })),
      defects: list(
        object({ id: word, kind: word, at: quantity, facing: word, diameter: quantity, wall: quantity }),
      ),
      nestChecks: list(object({ date, from: word, by: word, found: word })),
      prescriptions: list(
        object({
          id: word,
          kind: word,
          dose: quantity,
          between: object({ from: date, to: date }),
          because: word,
        }),
      ),
    },
    ['name'],
  ),
);
