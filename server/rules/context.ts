/** What a rule may look at: one tree, what applies to it, and today. Everything is immutable. */

import type { PhotoFile, PhotoIndex } from '../facts/photos.ts';
import type { Settings } from '../facts/settings.ts';
import type { Crew, Person, Site, Tree } from '../facts/types.ts';
import type { Workspace } from '../facts/workspace.ts';
import type { Rule } from './rule.ts';

export interface TreeContext {
  /** As of today: work of days still to come is left out, since nobody has done it. */
  readonly tree: Tree;
  /** As it stands in the file. */
  readonly recorded: Tree;
  readonly site: Site | undefined;
  /** Limits, seasons and severities in force here: practice blocks over the region's pack over the table. */
  readonly settings: Settings;
  readonly person: (id: string) => Person | undefined;
  readonly crew: (id: string) => Crew | undefined;
  /** All of the workspace, to say which was meant. */
  readonly personIds: readonly string[];
  readonly crewIds: readonly string[];
  /** Day number. */
  readonly today: number;
  /** What is known of the files of photographs; undefined where nobody looked. */
  readonly photos: PhotoIndex | undefined;
  /** What is known of the file that a photograph's path, as written here, leads to. */
  readonly photoFile: (written: string) => PhotoFile | undefined;
}

interface Everywhere {
  readonly ruleNames: readonly string[];
  readonly ruleNamed: (name: string) => Rule | undefined;
  /** Day number. */
  readonly today: number;
}

/** What a rule about exceptions may look at beside them. */
export interface AcceptContext extends Everywhere {
  readonly settings: Settings;
}

/** What a rule may look at that speaks about more than one tree, or about none. */
export interface WorkspaceContext extends Everywhere {
  readonly workspace: Workspace;
}
