/** The edit that writes a size measured in a photograph into a defect, with the photograph as its source. */

import type { Measured, Measuring } from '../assess/measured.ts';
import { showQuantity } from '../base/quantity.ts';
import { UserError } from '../base/user-error.ts';
import { folderOf } from '../facts/paths.ts';
import { resolveInside } from '../facts/photos.ts';
import type { Defect, Tree, WrittenTree } from '../facts/types.ts';
import type { FileSnapshot, PlacedFact } from '../facts/workspace.ts';
import { adviceEdits } from './advice.ts';
import { pathAsWritten, relativeTo } from './photos.ts';
import type { Edit } from './snapshot.ts';

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
    `tree ${tag.value} has no defect ${name}${others === '' ? ': it has none at all' : `; it has ${others}`}.`,
  );
}

/** The size, the photograph if the defect does not name it yet, and a note on how it was measured. */
export function measuredEdits(
  { file, placed, defect, field, photo }: MeasuredDefect,
  { written }: Measured,
  { distance, known }: Measuring,
): readonly Edit[] {
  const folder = folderOf(file.path);
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
