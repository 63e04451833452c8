import { schemaAt } from './schema.ts';

const { minimum = 1, maximum = 1 } = schemaAt(['format']) ?? {};

/** The newest version of the format, in which sheets are begun. */
export const NEWEST_FORMAT = maximum;

/** Every version that is read, the newest first. */
export const FORMATS = Array.from({ length: maximum - minimum + 1 }, (_, older) => maximum - older);
