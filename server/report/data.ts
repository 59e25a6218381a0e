/** The input of a report: everything read, checked and assessed. */

import type { Assessment } from '../assess/assessment.ts';
import type { PhotoSeries, TreePhoto } from '../assess/photo-series.ts';
import type { Urgency } from '../assess/urgency.ts';
import type { NestTreesNear } from '../facts/nest-index.ts';
import type { Settings } from '../facts/settings.ts';
import type { Crew, Person, Prescription, Site, Tree } from '../facts/types.ts';
import type { Finding } from '../rules/check.ts';
import type { Picture } from '../show/drawing/pictures.ts';
import type { History } from '../show/history.ts';
import type { LanguageCode } from './languages/translation.ts';

export const READERS = ['client', 'crew', 'office'] as const;
export type Reader = (typeof READERS)[number];

export interface ReportPhoto {
  /** As written in the inventory. */
  readonly path: string;
  /** The image as a `data:` URI, or why it is missing. */
  readonly image: { readonly address: string } | { readonly missing: string };
}

export interface ReportHistory extends History {
  readonly timeline: Picture;
  readonly series: readonly PhotoSeries[];
}

export interface ReportTree {
  readonly tree: Tree;
  /** Path as shown to the reader. */
  readonly file: string;
  readonly site: Site | undefined;
  readonly settings: Settings;
  readonly assessment: Assessment;
  readonly urgency: Urgency;
  /** Other trees with nests. */
  readonly nestTreesNear: NestTreesNear;
  /** Including accepted ones. */
  readonly findings: readonly Finding[];
  /** Names of the prescriptions that a finding is reported at or refers to; none if it is about the tree. */
  readonly prescriptionsOf: (finding: Finding) => readonly string[];
  /** Lines that could not be read, of the site, the crew of a prescription and its members. */
  readonly mistakesBeside: (prescription: Prescription) => readonly Finding[];
  readonly elevation: Picture | undefined;
  readonly sections: readonly Picture[];
  /** Of a tree that was visited or photographed on more than one day. */
  readonly history: ReportHistory | undefined;
  readonly photos: readonly ReportPhoto[];
  /** What they show, in the order of the records. */
  readonly photographs: readonly TreePhoto[];
}

/** Work at a tree, prescribed and not done. */
export interface WorkOrder {
  readonly entry: ReportTree;
  readonly prescription: Prescription;
}

export interface Unread {
  readonly file: string;
  readonly message: string;
}

export interface ReportData {
  /** Day number of the check. */
  readonly on: number;
  /** Day number from which the part for the client tells what was done; undefined without such a section. */
  readonly since?: number | undefined;
  readonly readers: readonly Reader[];
  /** Of all work orders, whatever their crews speak. */
  readonly crewLanguage?: LanguageCode | undefined;
  /** In file order. */
  readonly trees: readonly ReportTree[];
  /** All findings, including those of no tree. */
  readonly findings: readonly Finding[];
  readonly person: (id: string) => Person | undefined;
  readonly crew: (id: string) => Crew | undefined;
  /** What could not be read or computed, and why. */
  readonly unread: readonly Unread[];
  /** File, beside this one, of the page that leads to all areas; undefined where this page has all trees. */
  readonly index?: string | undefined;
  /** Path of a file of the workspace as shown to the reader. */
  readonly shown: (file: string) => string;
}
