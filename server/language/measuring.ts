/** The edit that writes a size measured in a photograph into a defect, with the photograph as its source. */

import { parseBlock } from '../../grammar/blocks.ts';
import { type Measured, type Measuring, measureInPicture } from '../assess/measured.ts';
import { type Dimension, type Quantity, showQuantity, unitsFor } from '../base/quantity.ts';
import { UserError } from '../base/user-error.ts';
import { capital } from '../base/words.ts';
import { valuesOf } from '../facts/interval.ts';
import { folderOf } from '../facts/paths.ts';
import { photosOf, resolveInside } from '../facts/photos.ts';
import { treeOn } from '../facts/state.ts';
import type { Defect, Tree, WrittenTree } from '../facts/types.ts';
import type { DatedWorkspace, FileSnapshot, PlacedFact } from '../facts/workspace.ts';
import type { PictureSize, PointPair } from '../mechanics/measure.ts';
import { asShown } from '../mechanics/picture-size.ts';
import { adviceEdits } from './advice.ts';
import { cursorAt, headStart } from './cursor.ts';
import { canBeNamed, pathAsWritten, relativeTo } from './photos.ts';
import type { Edit } from './snapshot.ts';
import { settingsOf } from './snapshot.ts';

/** The sizes of a defect that can be seen in a picture. */
export type MeasuredField = 'length' | 'width' | 'opening-width' | 'opening-height';

/** The line of a field that holds the size; the other size of an opening stays. */
function lineOf(field: MeasuredField, size: string, opening: Opening): string {
  switch (field) {
    case 'length':
    case 'width':
      return `${field} ${size}`;
    case 'opening-width':
      return `opening ${size} wide${opening.tall ? `, ${opening.tall} tall` : ''}`;
    case 'opening-height':
      return `opening ${opening.width ?? 'unseen'} wide, ${size} tall`;
  }
}

interface Opening {
  readonly width?: string;
  readonly tall?: string;
}

const openingOf = ({ opening }: Defect): Opening => ({
  ...(opening?.width ? { width: showQuantity(opening.width.value) } : {}),
  ...(opening?.tall ? { tall: showQuantity(opening.tall.value) } : {}),
});

export interface MeasuredDefect {
  readonly file: FileSnapshot;
  readonly placed: PlacedFact<WrittenTree>;
  readonly defect: Defect;
  readonly field: MeasuredField;
  /** The photograph, relative to the root. */
  readonly photo: string;
}

/** The defect of this name in a state of a tree. @throws UserError if there is none */
export function defectNamed({ tag, defects }: Tree, name: string): Defect {
  const found = defects.find(({ id }) => id.value === name);
  if (found) return found;
  const others = defects.map(({ id }) => id.value).join(', ');
  throw new UserError(
    `tree ${tag.value} has no defect ${name}; ${others === '' ? 'it has no defects' : `it has ${others}`}.`,
  );
}

/** The size, the photograph if the defect does not name it yet, and a note on how it was measured. */
export function measuredEdits(
  { file, placed, defect, field, photo }: MeasuredDefect,
  { written }: Measured,
  { distance, known }: Measuring,
): readonly Edit[] {
  const folder = folderOf(file.path);
  if (!canBeNamed(photo))
    throw new UserError(
      'this file name cannot be used in a record: rename it with letters, digits and hyphens.',
    );
  const path = pathAsWritten(relativeTo(folder, photo));
  const isNamed = defect.photos.some(one => resolveInside(folder, one.path) === photo);
  const by = distance ? `from ${showQuantity(distance)}` : `by ${showQuantity(known!.length)} in the picture`;
  const said = `${field.replace('-', ' ')} ${written} measured in ${relativeTo(folder, photo)} ${by}`;
  return adviceEdits(file, placed, {
    kind: 'reading',
    under: defect.at,
    lines: [
      lineOf(field, written, openingOf(defect)),
      ...(isNamed ? [] : [`photo ${path}${distance ? `, from ${showQuantity(distance)}` : ''}`]),
      `note "${said.replaceAll('"', '""')}"`,
    ],
  });
}

/** A quantity as the notation has it, by a field that takes one of its dimension. @throws UserError */
export function quantityOf(option: string, text: string, dimension: 'length' | 'angle'): Quantity {
  const field = dimension === 'length' ? 'height' : 'lean';
  const line = parseBlock(`tree 1\n${field} ${text}`).lines[1];
  const value = line?.values[0];
  if (line?.mistake || value?.type !== 'quantity' || line?.values.length !== 1) {
    const { message = '', remedy = '' } = line?.mistake ?? {};
    throw new UserError(
      `${option} "${text}" is not ${WORDS[dimension]}: write ${EXAMPLES[dimension]}.${message === '' ? '' : ` ${message} ${remedy}`}`,
    );
  }
  if (value.quantity.form === 'unseen') throw new UserError(`${option}: "unseen" is not allowed here.`);
  return value.quantity;
}

const unitsOf = (dimension: Dimension) =>
  unitsFor(dimension)
    .map(({ symbol }) => symbol)
    .join(', ');
const WORDS = { length: 'a length', angle: 'an angle' } as const;
const EXAMPLES = {
  length: `20ft, "~20 ft" or 19..21ft (${unitsOf('length')})`,
  angle: '15deg',
} as const;

/** What a person asks about the picture that a line names. */
export interface MeasureAsked {
  /** Pixels of the picture as it is shown. */
  readonly shown: PictureSize;
  readonly points: PointPair;
  /** As typed: a distance, or a known length with its points; an empty text states nothing. */
  readonly distance: string;
  readonly known: string;
  readonly knownPoints?: PointPair;
  readonly lens: string;
  readonly oblique: string;
  readonly defect?: string;
  readonly field?: MeasuredField;
}

export interface Measurement {
  /** Relative to the root. */
  readonly photo: string;
  readonly tree: string;
  /** Names of the defects of the tree, and that of the line. */
  readonly defects: readonly string[];
  readonly defect?: string;
  /** The distance of the line. */
  readonly distance?: string;
  readonly measured?: Measured;
  readonly mistake?: string;
  /** Of the file, where a defect and a field are chosen. */
  readonly edits?: readonly Edit[];
}

/** The photograph at an offset, with its measurement if one is asked for; undefined if no photograph of a tree is there. */
export function measurementAt(
  snapshot: DatedWorkspace,
  file: FileSnapshot,
  offset: number,
  asked?: MeasureAsked,
): Measurement | undefined {
  const cursor = cursorAt(file, offset);
  const { line, fact } = cursor;
  const value = line.word === 'photo' ? line.values.find(({ type }) => type === 'text') : undefined;
  const photo = value?.type === 'text' ? resolveInside(folderOf(file.path), value.text) : undefined;
  if (photo === undefined || fact?.fact.kind !== 'tree') return undefined;
  const placed = fact as PlacedFact<WrittenTree>;
  const tree = treeOn(placed.fact, snapshot.today);
  const head = headStart(cursor);
  const own = tree.defects.find(({ at }) => at.start === head);
  const from = cursor.lineStart - placed.start;
  const stated = photosOf(tree).find(({ start }) => start >= from && start < from + line.syntax.text.length);
  const about: Measurement = {
    photo,
    tree: tree.tag.value,
    defects: tree.defects.map(({ id }) => id.value),
    ...(own ? { defect: own.id.value } : {}),
    ...(stated?.distance ? { distance: showQuantity(stated.distance.value) } : {}),
  };
  if (!asked) return about;
  try {
    const settings = settingsOf(snapshot, file.path);
    const found = snapshot.workspace.photos?.get(photo);
    const record = found?.state === 'read' ? found.record : undefined;
    const defect = asked.defect === undefined ? own : defectNamed(tree, asked.defect);
    const measuring: Measuring = {
      points: asked.points,
      ...(asked.distance === '' ? {} : { distance: quantityOf('The distance', asked.distance, 'length') }),
      ...(asked.known === '' || !asked.knownPoints
        ? {}
        : {
            known: {
              length: quantityOf('The known length', asked.known, 'length'),
              points: asked.knownPoints,
            },
          }),
      ...(asked.lens === '' ? {} : { lens: quantityOf('The lens', asked.lens, 'length') }),
      ...(asked.oblique === '' ? {} : { oblique: quantityOf('The angle', asked.oblique, 'angle') }),
      ...(defect?.height ? { above: valuesOf(defect.height.value, settings) } : {}),
    };
    const picture = { record, stored: asShown(asked.shown, record?.orientation) };
    const measured = measureInPicture(picture, measuring, settings);
    const { field } = asked;
    return {
      ...about,
      measured,
      ...(defect && field
        ? { edits: measuredEdits({ file, placed, defect, field, photo }, measured, measuring) }
        : {}),
    };
  } catch (error) {
    if (error instanceof UserError) return { ...about, mistake: capital(error.message) };
    throw error;
  }
}
