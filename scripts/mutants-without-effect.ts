/** Mutants that change nothing anyone can see: the end of a file's path, the text that is changed, and why. */
export const equivalent: readonly { at: string; was: string; because: string }[] = [];
