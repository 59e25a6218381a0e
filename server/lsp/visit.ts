/** The request `soundwood/visit`: what somebody under a tree takes down, as edits and questions. */

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
        // Loaded where somebody asks for it.
        const { visitAt } = await import('../language/visit.ts');
        const { edits, ...rest } = visitAt(snapshot, file, toOffset(file, position), taken);
        return { ...rest, edits: edits.map(edit => toEdit(file, edit)) };
      },
    ),
  );
}
