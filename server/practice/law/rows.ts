import type { LawRow } from './law-row.ts';

/** For people only. */
export const words = { kind: 'words' } as const;

export const LOGGING = { force: 'logging law' } as const satisfies Partial<LawRow>;
