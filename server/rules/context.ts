/** What a rule may look at: one tree, what applies to it, and today. Everything is immutable. */

import type { Crew, Person, Site, Tree } from '../facts/types.ts';
import type { Settings } from '../facts/settings.ts';

export interface TreeContext {
  readonly tree: Tree;
  readonly site: Site | undefined;
  /** Limits, seasons and severities in force here: practice blocks over the region's pack over the table. */
  readonly settings: Settings;
  readonly person: (id: string) => Person | undefined;
  readonly crew: (id: string) => Crew | undefined;
  /** Day number. */
  readonly today: number;
}
