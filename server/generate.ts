/** Writes the files that are printed from the tables. Run by `npm run generate`; tests hold them fresh. */

import { writeFileSync } from 'node:fs';
import { notationReference } from '../grammar/reference.ts';

writeFileSync('grammar/NOTATION.md', notationReference());
