/** The forms of findings. */

export const FINDINGS_FORMS = ['text', 'lines', 'json', 'sarif', 'junit', 'markdown'] as const;
type FindingsForm = (typeof FINDINGS_FORMS)[number];

/** A form, and the file that it goes to; without one to standard output, or the file of --output. */
export interface WantedForm {
  readonly form: FindingsForm;
  readonly to?: string;
}
