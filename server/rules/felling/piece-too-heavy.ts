import { crewCalled } from '../../assess/called.ts';
import { authority } from '../../assess/judge.ts';
import { lengthDown, openWork } from '../../assess/prescriptions.ts';
import { pieceMass, riggingOf } from '../../assess/rigging.ts';
import { densityOf, type WoodDensity } from '../../assess/salvage.ts';
import { numberText, type Toward } from '../../base/figures.ts';
import { exact, type Interval, limitVerdict } from '../../base/interval.ts';
import { type Quantity, showQuantity, unitOf } from '../../base/quantity.ts';
import { valuesOf } from '../../facts/interval.ts';
import type { Setting, Settings } from '../../facts/settings.ts';
import type { Crew, Prescription, Tree } from '../../facts/types.ts';
import { longestPiece } from '../../mechanics/timber.ts';
import { cite } from '../../practice/citation.ts';
import type { GreenDensity } from '../../practice/density.ts';
import type { TreeContext } from '../context.ts';
import { plan, type Remedy, type Rule, type RuleReport, spanOf } from '../rule.ts';

type HeaviestPiece = NonNullable<Prescription['piece']>;

/** Whether the record says that the crane takes the piece, where the crew has both a crane and a rope. */
const isByCrane = ({ rigged, takedown }: Prescription): boolean =>
  rigged === undefined && takedown?.how === 'by crane';

/** Capacity of the crew's rope or crane, else the limit piece-mass. */
function capacityOf(
  crew: Crew | undefined,
  prescription: Prescription,
  settings: Settings,
): { setting: Setting; by: string } {
  const limit = settings.limit('piece-mass');
  const crane = crew?.rope && !isByCrane(prescription) ? undefined : crew?.crane?.mass;
  const own = crane ?? crew?.rope;
  if (!crew || !own || own.value.form === 'unseen') return { setting: limit, by: authority(limit) };
  const gear = crane ? 'crane' : 'rope';
  return {
    // The lower end of the crew's figure.
    setting: {
      ...limit,
      value: valuesOf(own.value, settings).low,
      unit: own.value.unit?.symbol ?? limit.unit,
    },
    by: `the ${gear} of ${crewCalled(crew.id.value, crew)}`,
  };
}

function* check({ tree, settings, crew: crewNamed }: TreeContext): Iterable<RuleReport> {
  for (const prescription of tree.prescriptions.length > 0 ? openWork(tree) : []) {
    const { piece, crew: crewWord, id } = prescription;
    if (!piece) continue;
    const density = densityOf(tree, settings);
    const mass = pieceMass(tree, piece, settings);
    if (!mass) continue;
    const crew = crewWord && crewNamed(crewWord.value);
    const { setting, by } = capacityOf(crew, prescription, settings);
    const standing = limitVerdict(mass, setting.value);
    // Told once: rigging-overload has the graver figure.
    const rigged = prescription.rigged && riggingOf(tree, prescription, crew, settings);
    if (standing === 'within' || (rigged && (rigged.standing === 'exceeds' || rigged.standing === standing)))
      continue;
    const size = piece.mass ? '' : `, ${sizeOf(piece)},`;
    const byDensity = piece.mass ? '' : ` ${densityWords(tree, density)}`;
    yield {
      at: spanOf(piece),
      grade: standing,
      subject: id.value,
      message: `The heaviest piece${size} weighs ${massAs(piece.mass?.value, mass, setting.unit)}${byDensity}, which ${standing} the working load limit of ${limitAs(piece.mass?.value, setting)} (${by}).`,
      ...orByCrane(remedyFor(prescription, piece, density.range, setting, settings), prescription, crew),
    };
  }
}

/** The basis of the mass, to follow it in the message. */
function densityWords({ species }: Tree, { known }: WoodDensity): string {
  if (known) return isOwn(known) ? 'green' : `green (by the density of its ${KIN[known.knownBy]})`;
  return species
    ? `for any wood from lightest to heaviest (no density is known for ${species.value.name})`
    : 'for any wood from lightest to heaviest (no species is recorded)';
}

const isOwn = ({ knownBy }: GreenDensity): boolean => knownBy === 'species';
const KIN = { species: 'species', 'another species': 'close relative', genus: 'genus' } as const;

const sizeOf = ({ length, diameter, narrow }: HeaviestPiece): string =>
  `${showQuantity(length!.value)} long and ${showQuantity(diameter!.value)}${narrow ? ` to ${showQuantity(narrow.value)}` : ''} thick`;

/** In whole units. */
function massWords({ low, high }: Interval, unit: string, toward?: Toward): string {
  const { factor } = unitOf(unit)!;
  return `${numberText({ low: low / factor, high: high / factor }, 0, toward)} ${unit}`;
}

/** As its writer gave it; beside it in the unit of the limit, where that is another. */
function massAs(stated: Quantity | undefined, mass: Interval, unit: string): string {
  const own = massWords(mass, unit);
  return stated?.unit && stated.unit.symbol !== unit ? `${showQuantity(stated)} (${own})` : own;
}

function limitAs(stated: Quantity | undefined, { value, unit }: Setting): string {
  const own = massWords(exact(value), unit, 'down');
  const other = stated?.unit?.symbol;
  return other && other !== unit ? `${own} (${massWords(exact(value), other, 'down')})` : own;
}

function remedyFor(
  { at }: Prescription,
  { length, diameter }: HeaviestPiece,
  density: Interval,
  { value }: Setting,
  settings: Settings,
): Remedy {
  // Zero capacity, or a diameter that may be zero, allows no length.
  if (!length || !diameter || !(value > 0) || !(valuesOf(diameter.value, settings).low > 0))
    return {
      remedy: 'Cut smaller pieces and state the heaviest, or assign a crew and rigging that can take it.',
    };
  const least = longestPiece(value, valuesOf(diameter.value, settings), density).low;
  const most = lengthDown(least, length.value);
  return {
    remedy: `Cut ${most ? `pieces of ${most} or less at this thickness` : 'smaller pieces'}, or state the mass of a weighed piece of the same wood. Or assign a crew and rigging that can handle it.`,
    advice: most ? [plan(at, `piece ${most}, ${showQuantity(diameter.value)} thick`)] : [],
  };
}

const orByCrane = (remedy: Remedy, { rigged, takedown }: Prescription, crew: Crew | undefined): Remedy =>
  crew?.rope && crew.crane && !rigged && !takedown
    ? { ...remedy, remedy: `${remedy.remedy} Where the crane lifts it, state "takedown by crane".` }
    : remedy;

export const pieceTooHeavy: Rule = {
  name: 'piece-too-heavy',
  group: 'felling',
  level: 'error',
  summary: 'a piece heavier than the working load of the crew’s rigging or crane',
  sources: [cite('miles-smith-2009'), cite('practice')],
  explanation:
    'Takes the mass of the heaviest piece of an open prescription as stated, or computes it from volume and density. The volume is that of a cylinder of its length and diameter, or of a cone frustum where both end diameters are stated. The density is that of the species’ green wood with bark, with a margin of density-margin either way. The margin is density-margin-genus where only the genus or a close relative is in the table, and in a dead tree the range extends down to dry wood. Where the wood is unknown, it may be any wood in the table, from the lightest dry to the heaviest green.\n\nThe mass is compared with the capacity of the named crew’s rope or crane, otherwise with the limit piece-mass. Of a crew that has both, the crane counts where the takedown is by crane. Catching a piece in free fall puts several times its weight on the rope and the anchor point (shock load), and the crew’s figure has to allow for that. Where the prescription states the rigging, rigging-overload computes that force and replaces this finding.',
  limitations: 'Prescriptions that state no piece, or only its length. The radius of the crane.',
  appliesTo: ['pieces'],
  rests: 'safety',
  acceptable: true,
  caution:
    'Wood, branches and moisture content vary. The climber and the rigger on site decide on each piece.',
  examples: [
    {
      title: 'Stated mass over the capacity of the rope; dimensions and a known wood; no crew named',
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
      title: 'Within the variation of density; a mass given as a range',
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
      title: 'On the rope of a crew that has a crane too, or nobody says on which',
      text: `crew CRANE "Crane crew"
  rope 400 lb
  crane 3 t

tree 707
  prescription R1 fell
    with CRANE
    takedown dismantled
    piece 500 lb #! exceeds
  prescription R2 fell
    with CRANE
    takedown by crane
    piece 500 lb
  prescription R3 fell
    with CRANE
    piece 500 lb #! exceeds
`,
    },
    {
      title: 'Known by genus only, whose woods vary more',
      text: `crew ROPE "Rope crew"
  rope 400 lb

tree 706
  species Quercus petraea
  prescription R1 fell
    with ROPE
    piece 2.5 ft, 20 in thick #! may exceed
`,
    },
    {
      title: 'Unknown wood: too heavy for any wood, and for some',
      text: `tree 703
  species Eucalyptus globulus
  prescription R1 fell
    piece 20 ft, 30 in thick #! exceeds
  prescription R2 fell
    piece 6 ft, 20 in thick #! may exceed

tree 705
  prescription R1 fell
    piece 4 m, 60 cm thick #! exceeds
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
    takedown by crane
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
