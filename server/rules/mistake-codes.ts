/** Syntax errors are findings whose rule is their code. */

import { MISTAKE_CODES } from '../../grammar/syntax.ts';

const codes: ReadonlySet<string> = new Set(MISTAKE_CODES);

export const isMistakeCode = (name: string): boolean => codes.has(name);
