/** The request `soundwood/measure`: the size of a thing in the photograph that a line names. */

import { measurementAt } from '../language/measuring.ts';
import { toEdit, toOffset } from './convert.ts';
import { MEASURE, type MeasureAnswer, type MeasureParams } from './requests.ts';
import { aboutFile, type Session } from './session.ts';
import { uriOf } from './uris.ts';

export function registerMeasure(session: Session): void {
  session.connection.onRequest(
    MEASURE,
    aboutFile(
      session,
      MEASURE,
      ({ position, asked }: MeasureParams, { file, root, snapshot }): MeasureAnswer | null => {
        const found = measurementAt(snapshot, file, toOffset(file, position), asked);
        const photo = found && uriOf(root.base, found.photo);
        if (!found || photo === undefined) return null;
        const { edits, ...rest } = found;
        return { ...rest, photo, ...(edits ? { edits: edits.map(edit => toEdit(file, edit)) } : {}) };
      },
    ),
  );
}
