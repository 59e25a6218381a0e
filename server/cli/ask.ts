/** Questions with numbered choices at the terminal: the one way in which commands ask. */

import type { Io } from './io.ts';

export interface Choice {
  /** What it is about. */
  readonly key: string;
  readonly asks: string;
  readonly choices: readonly string[];
}

/** The choice by its number, or what was typed instead; an empty answer is the proposal. */
export async function askChoice(
  { key, asks, choices }: Choice,
  { proposal, empty }: { readonly proposal: string; readonly empty: string },
  io: Io,
): Promise<string> {
  io.out(`\n${key}\n  ${asks}\n${choices.map((choice, i) => `  ${i + 1}  ${choice}\n`).join('')}`);
  const given = await io.ask(
    choices.length > 0 ? `Number, or what to write instead (${empty}):` : `Answer (${empty}):`,
    proposal,
  );
  return choices[Number(given) - 1] ?? given;
}
