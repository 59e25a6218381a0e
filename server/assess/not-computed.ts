/** A mistake in the program costs the tree that it shows at, and no other. */

/** A computation that failed. */
export class Fault {
  readonly error: unknown;

  constructor(error: unknown) {
    this.error = error;
  }

  /** What the error says, in one line. */
  get reason(): string {
    return reasonIn(this.error);
  }
}

/** Longer messages repeat what went in. */
const LONGEST = 200;

/** What an error says, in one line. */
export function reasonIn(error: unknown): string {
  const text = (error instanceof Error ? error.message : String(error)).replace(/\s+/g, ' ').trim();
  return text.length > LONGEST ? `${text.slice(0, LONGEST)}…` : text || 'no reason is given';
}

/** The result, or what went wrong. */
export function attempt<T>(compute: () => T): T | Fault {
  try {
    return compute();
  } catch (error) {
    return new Fault(error);
  }
}

/** Something in an inventory. */
export interface Place {
  /** As shown to people. */
  readonly file: string;
  /** From 1. */
  readonly line: number;
  /** `tree 14`. */
  readonly what: string;
}

/** What stands in an inventory and was not computed, as what could not be read is told. */
export interface NotComputed {
  readonly file: string;
  readonly message: string;
  readonly what: string;
  readonly fault: Fault;
}

export const notComputed = ({ file, line, what }: Place, fault: Fault): NotComputed => ({
  file,
  what,
  fault,
  message: `line ${line}: ${what} was not computed: ${fault.reason} (a mistake in the program, not in the record)`,
});

export interface Placed<T> {
  readonly place: Place;
  readonly of: T;
}

/**
 * What is shown of all of these; where that fails, of all but those of which it fails alone. Throws where it fails
 * without them, too.
 * @param show also hears which are left out
 */
export async function showSound<T, R>(
  all: readonly Placed<T>[],
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
