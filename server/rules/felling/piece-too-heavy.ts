/** A piece that is heavier than the crew handles. */

import { plainNumber, showQuantity, unitOf } from '../../../grammar/quantity.ts';
import { authority } from '../../assess/judge.ts';
import { lengthDown, openWork } from '../../assess/prescriptions.ts';
import { densityOf } from '../../assess/salvage.ts';
import { interval as reading } from '../../facts/interval.ts';
import type { Setting, Settings } from '../../facts/settings.ts';
import type { Crew, Prescription, Tree } from '../../facts/types.ts';
import { against, exact, type Interval, multiply } from '../../mechanics/interval.ts';
import { greenMass, longestPiece } from '../../mechanics/timber.ts';
import { cite } from '../../practice/index.ts';
import type { TreeContext } from '../context.ts';
import { plan, type Report, type Rule } from '../rule.ts';

type Piece = NonNullable<Prescription['piece']>;

/** A round piece as thick at both ends: m³. */
function volumeOf({ length, diameter }: Piece, settings: Settings): Interval | undefined {
  if (!length || !diameter) return undefined;
  const thick = reading(diameter.value, settings);
  const long = reading(length.value, settings);
  const known = long.low >= 0 && thick.low >= 0 && Number.isFinite(long.high + thick.high);
  return known ? multiply(multiply(multiply(thick, thick), exact(Math.PI / 4)), long) : undefined;
}

/** What the crew handles: its crane where it has one, else its rope, else the limit piece-mass. */
function capacityOf(crew: Crew | undefined, settings: Settings): { setting: Setting; by: string } {
  const limit = settings.limit('piece-mass');
  const own = crew?.crane?.mass ?? crew?.rope;
  if (!crew || !own || own.value.form === 'unseen') return { setting: limit, by: authority(limit) };
  const gear = crew.crane ? 'crane' : 'rope';
  return {
    // The least that the crew's figure may mean.
    setting: {
      ...limit,
      value: reading(own.value, settings).low,
      unit: own.value.unit?.symbol ?? limit.unit,
    },
    by: `${gear} of ${crew.id.value}`,
  };
}

const massLike = (kilograms: number, unit: string): string => {
  const { factor } = unitOf(unit)!;
  return `${plainNumber(kilograms / factor, 0)} ${unit}`;
};

function* check({ tree, settings, crew: crewNamed }: TreeContext): Iterable<Report> {
  for (const prescription of tree.prescriptions.length > 0 ? openWork(tree) : []) {
    const { piece, crew: crewWord, id } = prescription;
    if (!piece) continue;
    const at = { start: piece.start, end: piece.end };
    const subject = id.value;
    const volume = volumeOf(piece, settings);
    const density = densityOf(tree, settings);
    if (!piece.mass && volume && !density) {
      yield { at, grade: 'stated', subject, ...withoutDensity(tree, volume) };
      continue;
    }
    const mass = piece.mass ? reading(piece.mass.value, settings) : volume && greenMass(volume, density!);
    if (!mass) continue;
    const { setting, by } = capacityOf(crewWord && crewNamed(crewWord.value), settings);
    const standing = against(mass, setting.value);
    if (standing === 'within') continue;
    const sure = standing === 'exceeds';
    yield {
      at,
      grade: standing,
      subject,
      message: `The heaviest piece${piece.mass ? '' : `, ${sizeOf(piece)},`} weighs ${massWords(mass, setting.unit)}${piece.mass ? '' : ' green'}, which ${sure ? 'exceeds' : 'may exceed'} the ${massLike(setting.value, setting.unit)} that can be handled (${by}).`,
      ...remedyFor(prescription, piece, density, setting, settings),
    };
  }
}

const sizeOf = ({ length, diameter }: Piece): string =>
  `${showQuantity(length!.value)} long and ${showQuantity(diameter!.value)} thick`;

function massWords({ low, high }: Interval, unit: string): string {
  const [least, most] = [massLike(low, unit), massLike(high, unit)];
  if (high === Number.POSITIVE_INFINITY) return `more than ${least}`;
  return least === most ? least : `${least.split(' ')[0]}..${most}`;
}

function remedyFor(
  { at }: Prescription,
  { length, diameter }: Piece,
  density: Interval | undefined,
  { value }: Setting,
  settings: Settings,
): Pick<Report, 'remedy' | 'advice'> {
  // Gear that carries nothing, and a thickness that may be nothing, give no length.
  if (!length || !diameter || !density || !(value > 0) || !(reading(diameter.value, settings).low > 0))
    return { remedy: 'Cut smaller pieces and state the heaviest, or send a crew and gear that carry it.' };
  const least = longestPiece(value, reading(diameter.value, settings), density).low;
  const most = lengthDown(least, length.value);
  return {
    remedy: `Cut ${most ? `pieces of ${most} or less at this thickness` : 'smaller pieces'}, or send a crew and gear that carry it.`,
    advice: most ? [plan(at, `piece ${most}, ${showQuantity(diameter.value)} thick`)] : [],
  };
}

function withoutDensity({ species }: Tree, volume: Interval): { message: string; remedy: string } {
  const whose = species ? `for ${species.value.name}` : 'without a species';
  return {
    message: `The heaviest piece holds up to ${plainNumber(Math.ceil(volume.high * 100) / 100, 2)} m³ of wood, but no green density is known ${whose}: nobody can say whether the crew's gear carries it.`,
    remedy: 'State the mass of the piece (from a weighed one of the same wood) in place of its size.',
  };
}

export const pieceTooHeavy: Rule = {
  name: 'piece-too-heavy',
  group: 'felling',
  level: 'note',
  summary: 'a piece heavier than the crew handles on its rope or crane',
  sources: [cite('nps-tree-workers'), cite('practice')],
  explanation:
    'Takes the heaviest piece of an open prescription: its mass as stated, or the volume of a cylinder of its length and thickness times the green density of the species (with the limit density-margin either way). It stands against the crane of the crew that is named, else its rope, else the limit piece-mass. Where no density is known for the species, that is said instead of a guess. A piece that is caught in free fall loads rope and anchor several times its weight: the crew’s figure has to allow for that.',
  whenNot:
    'Prescriptions that state no piece, or one by length alone. The reach of the crane is not looked at.',
  looksAt: ['pieces'],
  acceptable: true,
  caution: 'Wood, branches and water vary: the climber and the rigger on site decide on each piece.',
  examples: [
    {
      title: 'Stated mass over the crew’s rope; size of a known wood; no crew named',
      text: `person JM "Jonah Mraz"
  qualified climbing arborist

crew ROPE "Rope crew"
  members JM
  rope 400 lb

tree 701
  species Quercus rubra
  prescription R1 fell
    with ROPE
    piece 500 lb #! exceeds
  prescription R2 fell
    with ROPE
    piece 8 ft, 20 in thick #! exceeds
  prescription R3 fell
    piece 300 kg #! exceeds
`,
    },
    {
      title: 'Within what density varies; a mass known by its range',
      text: `crew ROPE "Rope crew"
  rope 400 lb

tree 702
  species Quercus rubra
  prescription R1 fell
    with ROPE
    piece 3 ft, 20 in thick #! may exceed
  prescription R2 fell
    with ROPE
    piece 350..450 lb #! may exceed
`,
    },
    {
      title: 'No density is known',
      text: `tree 703
  species Acer macrophyllum
  prescription R1 fell
    piece 6 ft, 20 in thick #! note stated
`,
    },
    {
      title: 'Light enough, lifted by crane, length alone, no piece',
      text: `crew ROPE "Rope crew"
  rope 400 lb

crew CRANE "Crane crew"
  crane 6000 lb at 60 ft
  rope 400 lb

tree 704
  species Quercus rubra
  prescription R1 fell
    with ROPE
    piece 2 ft, 16 in thick
  prescription R2 fell
    with CRANE
    piece 16 ft, 20 in thick
  prescription R3 fell
    with ROPE
    piece 12 ft
  prescription R4 fell
`,
    },
  ],
  check,
};
