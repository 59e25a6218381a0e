/** Tables of towns that nobody here wrote: what is taken is right, and what is not sure is asked. */

import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { splitBlocks } from '../../grammar/blocks.ts';
import { tidy } from '../../grammar/tidy.ts';
import {
  type GuessContext,
  guessMapping,
  type Mapping,
  readMeaning,
  showMeaning,
} from '../../server/import/index.ts';
import { importText, readTable } from './table.ts';

const town = (name: string) => readFileSync(new URL(`towns/${name}.csv`, import.meta.url), 'utf8');
const mistakes = (text: string) =>
  splitBlocks(text).flatMap(({ block }) => block.lines.flatMap(line => line.mistake ?? []));

async function understood(text: string, context: GuessContext = {}) {
  const guess = guessMapping(await readTable(text), context);
  const meant = Object.fromEntries(
    [...guess.mapping].flatMap(([column, meaning]) =>
      meaning.kind === 'note' ? [] : [[column, showMeaning(meaning)]],
    ),
  );
  const asked = guess.questions.filter(({ isOptional }) => !isOptional).map(({ column }) => column);
  return { ...guess, meant, asked };
}

/** The mapping as somebody who knows the table leaves it. */
const answered = (mapping: Mapping, answers: Readonly<Record<string, string>>): Mapping =>
  new Map(
    [...mapping].map(([column, { isOpen: _, ...meaning }]) => [
      column,
      answers[column] === undefined ? meaning : readMeaning(column, answers[column]),
    ]),
  );

interface Town {
  readonly name: string;
  readonly context?: GuessContext;
  /** All columns that are more than notes. */
  readonly meant: Readonly<Record<string, string>>;
  readonly asked?: readonly string[];
  /** What whoever knows the table answers. */
  readonly answers?: Readonly<Record<string, string>>;
  /** Lines of the inventory, after the answers. */
  readonly lines: readonly string[];
  readonly trees: number;
  readonly apart?: number;
}

const TOWNS: readonly Town[] = [
  {
    name: 'san-francisco',
    meant: {
      TreeID: 'tag',
      qSpecies: 'species',
      PlantDate: 'planted month-first',
      DBH: 'dbh in',
      Latitude: 'latitude',
      Longitude: 'longitude',
    },
    trees: 10,
    lines: [
      'tree 189160',
      "species     Magnolia grandiflora 'Little Gem'  # Magnolia grandiflora 'Little Gem' :: Little Gem Magnolia",
      'species     Platanus × hispanica  # Platanus x hispanica :: Sycamore: London Plane',
      'planted     2022-11-16',
      'dbh         2 in',
    ],
  },
  {
    name: 'new-york',
    meant: {
      tree_id: 'tag',
      tree_dbh: 'dbh in',
      status: 'status',
      health: 'vigor',
      spc_latin: 'species',
      spc_common: 'common-name',
      Latitude: 'latitude',
      longitude: 'longitude',
    },
    trees: 10,
    lines: [
      'tree 179265',
      'species     Gleditsia triacanthos var. inermis',
      'dbh         33 in',
      'vigor       fair',
    ],
  },
  {
    name: 'portland',
    context: { region: 'US-OR' },
    meant: {
      the_geom: 'position',
      objectid: 'tag',
      dbh: 'dbh in',
      condition: 'vigor',
      plant_date: 'planted',
      scientific: 'species',
      genus: 'genus',
      common: 'common-name',
    },
    trees: 10,
    lines: ['tree 213107', 'species     Tilia spp.', 'dbh         11.3 in', 'vigor       poor'],
  },
  {
    name: 'melbourne',
    meant: {
      scientific_name: 'species',
      common_name: 'common-name',
      genus: 'genus',
      date_planted: 'planted day-first',
      age_description: 'age',
      latitude: 'latitude',
      longitude: 'longitude',
    },
    answers: { com_id: 'tag' },
    trees: 11,
    lines: [
      'tree 1049128',
      'species     Eucalyptus melliodora',
      'position    -37.78976115, 144.9459666',
      'age         mature',
    ],
  },
  {
    name: 'baltimore',
    meant: {
      ID: 'tag',
      Species: 'species',
      'Common Name': 'common-name',
      DBH: 'dbh in',
      Height: 'height ft',
      Cultivar: 'cultivar',
      'X Coordinate': 'longitude',
      'Y Coordinate': 'latitude',
    },
    trees: 10,
    lines: [
      'dbh         44.1 in',
      'height      97 ft',
      'position    39.36593878, -76.70212904',
      'species     Prunus spp.',
    ],
  },
  {
    name: 'austin',
    context: { region: 'US-TX' },
    meant: { SPECIES: 'species', DIAMETER: 'dbh in', LONGITUDE: 'longitude', LATITUDE: 'latitude' },
    trees: 14,
    apart: 1,
    lines: [
      'species     Quercus  # Oak',
      '# SPECIES "Sycamore" left out: it can mean Platanus occidentalis or Platanus racemosa',
    ],
  },
  {
    name: 'paris',
    meant: {
      LIBELLEFRANCAIS: 'common-name',
      GENRE: 'genus',
      ESPECE: 'epithet',
      VARIETEOUCULTIVAR: 'cultivar',
      CIRCONFERENCEENCM: 'girth cm',
      'HAUTEUR (m)': 'height m',
      STADEDEVELOPPEMENT: 'age',
      geo_point_2d: 'position',
    },
    answers: { IDEMPLACEMENT: 'tag' },
    trees: 11,
    lines: [
      "species     Picea pungens 'Koster'",
      'species     Picea sp.',
      'girth       90 cm',
      'height      11 m',
      'age         semi-mature',
      'position    48.8391832608, 2.40714227176',
      '# HAUTEUR (m) "510.0" left out: no tree is that tall',
    ],
  },
  {
    name: 'saint-quentin',
    meant: {
      id: 'tag',
      latitude: 'latitude',
      longitude: 'longitude',
      haut_tot: 'height m',
      tronc_diam: 'girth cm ?',
      stade_dev: 'age',
    },
    asked: ['tronc_diam'],
    answers: { tronc_diam: 'girth cm' },
    trees: 10,
    lines: ['girth       160 cm', 'height      13 m'],
  },
  {
    name: 'italia-monumentali',
    meant: {
      Name: 'name',
      LATITUDINE: 'latitude',
      LONGITUDIN: 'longitude',
      GENERE: 'genus',
      SPECIE: 'species',
      NOME_VOLG: 'common-name',
    },
    answers: { AL_IS___H: 'height m', AL_IS___C: 'girth cm' },
    trees: 8,
    lines: [
      'tree 1 "001/F856/BZ/21"',
      'species     Tilia cordata  # Tilia cordata Mill.',
      'species     Platanus acerifolia  # Platanus acerifolia (Aiton) Willd.',
      'species     Picea abies  # Picea abies (L.) H. Karst.',
      'height      17.2 m',
      'girth       1322 cm',
    ],
  },
  {
    name: 'madrid-parques',
    meant: { ESPECIE: 'species', 'UNIDADES 2023': 'count' },
    trees: 3,
    apart: 10,
    lines: ['species     Cercis siliquastrum'],
  },
  {
    name: 'wien',
    meant: {
      SHAPE: 'position',
      BAUM_ID: 'tag',
      GATTUNG_ART: 'species',
      PFLANZJAHR_TXT: 'planted',
      STAMMUMFANG_TXT: 'girth cm',
      BAUMHOEHE_TXT: 'height m',
      KRONENDURCHMESSER_TXT: 'crown m',
    },
    trees: 6,
    lines: [
      'species     Acer platanoides  # Acer platanoides (Spitzahorn)',
      "species     Aesculus hippocastanum 'Baumannii'  # Aesculus hippocastanum 'Baumannii' (Gefülltblühende Rosskastanie)",
      'girth       98 cm',
      'height      6..10 m',
      'crown       4..6 m wide',
      'planted     1985-01-01',
    ],
  },
  {
    name: 'berlin',
    meant: {
      baumid: 'tag',
      art_dtsch: 'common-name',
      art_bot: 'species',
      gattung: 'genus',
      pflanzjahr: 'planted',
      stammumfg: 'girth cm',
      kronedurch: 'crown m',
      baumhoehe: 'height m',
      'x (EPSG:25833)': 'easting EPSG:25833',
      'y (EPSG:25833)': 'northing EPSG:25833',
    },
    trees: 6,
    lines: [
      'species     Carpinus betulus',
      'girth       132 cm',
      'height      14.5 m',
      'position    52.5202906, 13.4011888',
    ],
  },
  {
    name: 'torino',
    meant: {
      CODICE: 'tag',
      GENERE: 'genus',
      SPECIE: 'epithet',
      CULTIVAR: 'cultivar',
      'DIAMETRO (cm)': 'dbh cm',
      'ALTEZZA (m)': 'height m',
      'DATA IMPIANTO': 'planted day-first',
      CONDIZIONE: 'vigor',
      INTERVENTO: 'job',
      'DATA CONTROLLO': 'inspected day-first',
    },
    trees: 5,
    apart: 1,
    lines: [
      "species     Tilia cordata 'Greenspire'",
      'vigor       good',
      'vigor       dead',
      'planted     1998-11-14',
      'inspection 2023-05-12 from ground',
      'prescription R1 fell',
    ],
  },
  {
    name: 'buenos-aires',
    meant: {
      long: 'longitude',
      lat: 'latitude',
      nro_registro: 'tag',
      nombre_cientifico: 'species',
      diametro_altura_pecho: 'dbh cm',
      altura_arbol: 'height m',
    },
    trees: 6,
    lines: ['tree 26779', 'species     Tilia × moltkei', 'dbh         45 cm', 'height      18 m'],
  },
  {
    name: 'amsterdam',
    meant: {
      Boomnummer: 'tag',
      Soortnaam: 'species',
      SoortnaamNederlands: 'common-name',
      Boomhoogte: 'height m',
      Stamdiameter: 'dbh cm',
      Plantjaar: 'planted',
      Conditie: 'vigor',
      Maatregel: 'job',
      'X (RD)': 'easting EPSG:28992',
      'Y (RD)': 'northing EPSG:28992',
    },
    trees: 5,
    lines: [
      "species     Ulmus × hollandica 'Commelin'",
      'height      18..24 m',
      'dbh         0.3..0.5 m',
      'vigor       poor',
      'prescription R1 raise',
      'position    52.3742182, 4.89801',
    ],
  },
  {
    name: 'lisboa',
    meant: {
      ESPECIE_VALIDADA: 'species',
      NOME_VULGAR: 'common-name',
      PAP: 'girth m',
      ALTURA: 'height m',
      ESTADO: 'vigor',
      POINT_X: 'longitude',
      POINT_Y: 'latitude',
    },
    answers: { COD_SIG: 'tag' },
    trees: 5,
    lines: [
      'tree LX-1',
      'species     Tipuana tipu  # Tipuana tipu (Benth.) Kuntze',
      'girth       1.55 m',
      'position    38.7301, -9.1365',
      'vigor       fair',
    ],
  },
  {
    name: 'belfast',
    meant: {
      SPECIES: 'species',
      AGE: 'age',
      VIGOUR: 'vigor ?',
      DIAMETERinCENTIMETRES: 'dbh cm',
      SPREADRADIUSinMETRES: 'crown-radius m',
      LONGITUDE: 'longitude',
      LATITUDE: 'latitude',
      TREETAG: 'tag',
      TREEHEIGHTinMETRES: 'height m',
    },
    asked: ['VIGOUR'],
    answers: { VIGOUR: 'note', CONDITION: 'vigor' },
    trees: 6,
    lines: ['crown       10 m wide', 'vigor       dead', 'dbh         70 cm', 'age         semi-mature'],
  },
];

describe('extracts of published tables', () => {
  test.each(TOWNS)(
    '$name',
    async ({ name, context, meant, asked = [], answers = {}, lines, trees, apart = 0 }) => {
      const text = town(name);
      const found = await understood(text, context);
      expect(found.meant).toEqual(meant);
      expect(found.asked).toEqual(asked);
      const read = await importText(text, answered(found.mapping, answers), context?.region);
      expect(mistakes(read.text)).toEqual([]);
      expect(tidy(read.text).text).toBe(read.text);
      expect(read.trees).toBe(trees);
      expect(read.apart).toHaveLength(apart);
      for (const line of lines) expect(read.text).toContain(line);
    },
  );
});

/** Headings of which each has one right meaning, with cells of eight trees. */
const KNOWN: readonly {
  readonly heading: string;
  readonly meant: string;
  readonly cells: readonly string[];
}[] = [
  { heading: 'Tree No', meant: 'tag', cells: ['T1', 'T2', 'T3', 'T4', 'T5', 'T6', 'T7', 'T8'] },
  {
    heading: 'Scientific Name',
    meant: 'species',
    cells: [
      'Acer rubrum',
      'Tilia cordata',
      'Quercus robur',
      'Ulmus minor',
      'Acer rubrum',
      'Fagus sylvatica',
      'Pinus nigra',
      'Tilia cordata',
    ],
  },
  { heading: 'DBH (cm)', meant: 'dbh cm', cells: ['30', '45', '21', '60', '33', '52', '40', '18'] },
  { heading: 'Height (m)', meant: 'height m', cells: ['12', '15', '9', '20', '13', '18', '14.5', '8'] },
  { heading: 'Crown spread (m)', meant: 'crown m', cells: ['8', '11', '6', '14', '9', '12', '10.5', '5'] },
  {
    heading: 'Condition',
    meant: 'vigor',
    cells: ['Good', 'Fair', 'Poor', 'Good', 'Good', 'Fair', 'Good', 'Good'],
  },
  {
    heading: 'Latitude',
    meant: 'latitude',
    cells: ['51.5', '51.51', '51.52', '51.53', '51.54', '51.55', '51.56', '51.57'],
  },
  {
    heading: 'Longitude',
    meant: 'longitude',
    cells: ['-0.11', '-0.12', '-0.13', '-0.14', '-0.15', '-0.16', '-0.17', '-0.18'],
  },
  {
    heading: 'Year planted',
    meant: 'planted',
    cells: ['1990', '1985', '2004', '1960', '1999', '1975', '1980', '2010'],
  },
];

const NUMBERS = ['4', '12', '7.5', '30', '3', '22', '16', '9'];
const ROUGH_WORDS = ['Good', 'Bad', 'North', 'Elm Road', 'Private', 'x', 'Yes', 'No'];
/** Columns beside them that are of something else, over cells that would do. */
const NOISE = fc.record({
  heading: fc
    .tuple(
      fc.constantFrom(
        ...[
          'Wire',
          'Cavity',
          'Pit',
          'Site',
          'Sidewalk',
          'Owner',
          'Block',
          'Plot',
          'Street',
          'Neighborhood',
          'Planting space',
        ],
        ...[
          'Stump',
          'Limb',
          'Building',
          'Fence',
          'Sign',
          'Park',
          'Root',
          'Leaf',
          'Soil',
          'Target',
          'Zone',
          'Zusatz',
          'Foo',
        ],
      ),
      fc.constantFrom(
        'Height',
        'Height (ft)',
        'Diameter',
        'Width',
        'Condition',
        'Name',
        'Species',
        'ID',
        'Girth',
        'Spread',
        'Age',
        'Latitude',
        'Status',
      ),
      fc.boolean(),
    )
    .map(([word, thing, isAfter]) => (isAfter ? `${thing} of ${word}` : `${word} ${thing}`)),
  cells: fc.constantFrom(NUMBERS, ROUGH_WORDS),
});

test('whatever stands beside known headings, in whatever order: each is read right, and the rest is asked or a note', async () => {
  const columns = fc
    .tuple(
      fc.shuffledSubarray([...KNOWN], { minLength: 4 }),
      fc.uniqueArray(NOISE, { maxLength: 5, selector: one => one.heading }),
    )
    .chain(([known, noise]) => {
      const all = [...known, ...noise];
      return fc.shuffledSubarray(all, { minLength: all.length });
    });
  await fc.assert(
    fc.asyncProperty(columns, async all => {
      const rows = NUMBERS.map((_, i) => all.map(({ cells }) => cells[i]!).join(';'));
      const { mapping, questions, tags } = guessMapping(
        await readTable(`${all.map(({ heading }) => heading).join(';')}\n${rows.join('\n')}\n`),
      );
      for (const one of all) {
        const meaning = mapping.get(one.heading)!;
        const isAsked = questions.some(({ column, isOptional }) => column === one.heading && !isOptional);
        if (isAsked || (meaning.kind === 'tag' && tags.doubtful)) continue;
        expect(`${one.heading}: ${showMeaning(meaning)}`).toBe(
          `${one.heading}: ${'meant' in one ? one.meant : 'note'}`,
        );
      }
    }),
    { numRuns: 150 },
  );
});

describe('units', () => {
  const unit = async (
    heading: string,
    cells: readonly string[],
    height: string,
    heights: readonly string[],
    region?: string,
  ) => {
    const text = `id;${heading};${height}\n${cells.map((cell, i) => `${i};${cell};${heights[i]}`).join('\n')}\n`;
    const { meant, asked } = await understood(text, { region });
    return [meant[heading], meant[height], asked];
  };
  const TALL = ['12', '14', '9', '17', '11'];

  test('metres under a heading of centimetres, and centimetres under one of metres, are asked about', async () => {
    const [, , asked] = await unit('DBH (cm)', ['0.3', '0.45', '0.2', '0.6', '0.35'], 'Height (m)', TALL);
    expect(asked).toEqual(['DBH (cm)']);
    const [, , other] = await unit('DBH (m)', ['30', '45', '20', '60', '35'], 'Height (m)', TALL);
    expect(other).toEqual(['DBH (m)']);
  });

  test('what makes usual trees in one way only is taken, and told', async () => {
    expect(await unit('dbh', ['0.3', '0.45', '0.2', '0.6', '0.35'], 'height', TALL)).toEqual([
      'dbh m',
      'height m',
      [],
    ]);
    expect(await unit('dbh', ['30', '45', '20', '60', '35'], 'height', TALL)).toEqual([
      'dbh cm',
      'height m',
      [],
    ]);
    expect(
      await unit('dbh', ['12', '18', '8', '24', '14'], 'height', ['40', '46', '30', '56', '36']),
    ).toEqual(['dbh in', 'height ft', []]);
  });

  test('what the region decides is not asked', async () => {
    const text = 'id;dbh\n1;12\n2;14\n3;9\n';
    expect((await understood(text)).asked).toEqual(['dbh']);
    expect((await understood(text, { region: 'US-OR' })).meant).toMatchObject({ dbh: 'dbh in' });
    expect((await understood(text, { region: 'DE' })).meant).toMatchObject({ dbh: 'dbh cm' });
  });
});

test('what no column says is said', async () => {
  expect(
    (await understood('id;Street;Remarks\n1;Elm Road;x\n2;Elm Road;y\n3;Oak Road;z\n')).saysNothing,
  ).toBe(true);
  expect((await understood('id;Species\n1;Acer rubrum\n')).saysNothing).toBe(false);
});

test('a point in one column: the order that the place tells, else a question', async () => {
  const table = (cell: string) => `id;geo_point;species\n1;"${cell}";Acer rubrum\n2;"${cell}";Acer rubrum\n`;
  expect((await understood(table('2.35, 48.85'))).meant).toMatchObject({
    geo_point: 'position longitude-first',
  });
  expect((await understood(table('48.85, 2.35'))).meant).toMatchObject({ geo_point: 'position' });
  expect((await understood(table('-37.8, 145'))).meant).toMatchObject({ geo_point: 'position' });
  // In the sea and in no country of the table: nobody can tell.
  expect((await understood(table('3.5, 2.1'))).asked).toEqual(['geo_point']);
});
