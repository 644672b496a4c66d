/**
 * Date of the parts of every file that is built: the day of building changes no byte. The time of a zip entry is local
 * time without a zone, so it is given as local midnight.
 */
export const ZIP_DATE = new Date(2026, 0, 1);
