/** What a report is made of: all of it read, checked and weighed already. */

import type { Assessment } from '../assess/assessment.ts';
import type { Settings } from '../facts/settings.ts';
import type { Crew, Person, Prescription, Site, Tree } from '../facts/types.ts';
import type { Finding } from '../rules/check.ts';
import type { Picture } from '../show/drawing/pictures.ts';

export const READERS = ['client', 'crew', 'office'] as const;
export type Reader = (typeof READERS)[number];

export interface ReportPhoto {
  /** As written in the inventory. */
  readonly path: string;
  /** The picture itself as a `data:` address, or why it is not here. */
  readonly image: { readonly address: string } | { readonly missing: string };
}

export interface ReportTree {
  readonly tree: Tree;
  /** As shown to the reader. */
  readonly file: string;
  readonly site: Site | undefined;
  readonly settings: Settings;
  readonly assessment: Assessment;
  /** Those of this tree, accepted ones among them. */
  readonly findings: readonly Finding[];
  /** The prescriptions, by name, that a finding is told at or points to; none where it is about the tree. */
  readonly prescriptionsOf: (finding: Finding) => readonly string[];
  readonly elevation: Picture | undefined;
  readonly sections: readonly Picture[];
  readonly photos: readonly ReportPhoto[];
}

/** Work at a tree, prescribed and not done. */
export interface WorkOrder {
  readonly entry: ReportTree;
  readonly prescription: Prescription;
}

export interface ReportData {
  /** Day number for which everything was checked. */
  readonly on: number;
  readonly readers: readonly Reader[];
  /** In the order of their files. */
  readonly trees: readonly ReportTree[];
  /** All of them, those of no tree too. */
  readonly findings: readonly Finding[];
  readonly person: (id: string) => Person | undefined;
  readonly crew: (id: string) => Crew | undefined;
  /** What could not be read or computed, and why. */
  readonly unread: readonly { readonly file: string; readonly message: string }[];
  /** How a file of the workspace is named for the reader. */
  readonly shown: (file: string) => string;
}
