/** Something that the user can put right; its message is shown as it is. */
export class UserError extends Error {}
