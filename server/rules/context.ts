/** What a rule about trees may look at: one tree, what applies to it, and today. Everything is immutable. */

import type { NestTreesNear } from '../facts/nest-index.ts';
import type { PhotoFile, PhotoIndex } from '../facts/photos.ts';
import type { Settings } from '../facts/settings.ts';
import type { Crew, Person, Site, Tree, WrittenTree } from '../facts/types.ts';

/** What applies to the trees of a file on one day. */
export interface RuleEnvironment {
  readonly site: Site | undefined;
  /** Limits, seasons and severities in force here: practice blocks over the region's pack over the table. */
  readonly settings: Settings;
  readonly person: (id: string) => Person | undefined;
  readonly crew: (id: string) => Crew | undefined;
  /** All of the workspace, to say which was meant. */
  readonly personIds: readonly string[];
  readonly crewIds: readonly string[];
  /** The day on which the tree is judged, a day number. */
  readonly today: number;
  /** The last day that can be past: today, also where the state of an earlier day is asked for. */
  readonly now: number;
  /** Other trees with nests. */
  readonly nestTreesNear: NestTreesNear;
  /** What is known of the files of photographs; undefined where nobody looked. */
  readonly photos: PhotoIndex | undefined;
  /** What is known of the file that a photograph's path, as written here, leads to. */
  readonly photoFile: (written: string) => PhotoFile | undefined;
}

export interface TreeContext extends RuleEnvironment {
  /** As it is today, by facts/state.ts: nothing of later days counts, and of all readings the newest. */
  readonly tree: Tree;
  /** As written in the file. */
  readonly recorded: WrittenTree;
}
