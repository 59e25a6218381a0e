/** Isolates internal errors, so that one affects only the tree where it occurs. */

export class Fault {
  readonly error: unknown;

  constructor(error: unknown) {
    this.error = error;
  }

  get reason(): string {
    return reasonIn(this.error);
  }
}

/** Maximum length of a message. */
const MAX_LENGTH = 200;

/** The message of an error, on one line. */
export function reasonIn(error: unknown): string {
  const text = (error instanceof Error ? error.message : String(error)).replace(/\s+/g, ' ').trim();
  return text.length > MAX_LENGTH ? `${text.slice(0, MAX_LENGTH)}…` : text || 'no reason is given';
}

export function attempt<T>(compute: () => T): T | Fault {
  try {
    return compute();
  } catch (error) {
    return new Fault(error);
  }
}

/** Location of an item in an inventory. */
export interface ItemLocation {
  /** Displayed path. */
  readonly file: string;
  /** From 1. */
  readonly line: number;
  /** `tree 14`. */
  readonly what: string;
}

export interface NotComputed {
  readonly file: string;
  readonly message: string;
  readonly what: string;
  readonly fault: Fault;
}

export const notComputed = ({ file, line, what }: ItemLocation, fault: Fault): NotComputed => ({
  file,
  what,
  fault,
  message: `line ${line}: ${what} was not computed: ${fault.reason} (a mistake in the program, not in the record)`,
});

export interface LocatedItem<T> {
  readonly place: ItemLocation;
  readonly of: T;
}

/**
 * Shows all items; if that fails, all except those that fail individually. Throws if it still fails.
 *
 * @param show receives the items and those left out
 */
export async function showSound<T, R>(
  all: readonly LocatedItem<T>[],
  show: (some: readonly T[], left: readonly NotComputed[]) => R | Promise<R>,
): Promise<{ readonly shown: R; readonly left: readonly NotComputed[] }> {
  try {
    const shown = await show(
      all.map(({ of }) => of),
      [],
    );
    return { shown, left: [] };
  } catch (error) {
    const sound: T[] = [];
    const left: NotComputed[] = [];
    for (const { place, of } of all) {
      try {
        await show([of], []);
        sound.push(of);
      } catch (own) {
        left.push(notComputed(place, new Fault(own)));
      }
    }
    if (left.length === 0) throw error;
    return { shown: await show(sound, left), left };
  }
}
