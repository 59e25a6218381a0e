/** The request `soundwood/visit`: what somebody under a tree takes down, as edits and questions. */

import { visitAt } from '../language/visit.ts';
import { toEdit, toOffset } from './convert.ts';
import { VISIT, type VisitAnswer, type VisitParams } from './requests.ts';
import { aboutFile, type Session } from './session.ts';

export function registerVisit(session: Session): void {
  session.connection.onRequest(
    VISIT,
    aboutFile(
      session,
      VISIT,
      async ({ position, taken }: VisitParams, { file, snapshot }): Promise<VisitAnswer> => {
        const read =
          taken?.spoken === undefined ? undefined : (await import('../language/spoken.ts')).spokenEdits;
        const { edits, ...rest } = visitAt(snapshot, file, toOffset(file, position), taken, read);
        return { ...rest, edits: edits.map(edit => toEdit(file, edit)) };
      },
    ),
  );
}
