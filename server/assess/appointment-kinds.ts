/** The kinds of entries of a calendar. */

export type AppointmentKind =
  | 'window'
  | 'last day for work'
  | 'nest check'
  | 'nest check ends'
  | 'follow-up'
  | 're-inspection'
  | 'support inspection'
  | 'support ends'
  | 'wall reading'
  | 'reading'
  | 'permit ends'
  | 'exception ends'
  /** Replaces all other entries of a tree. */
  | 'not computed';
