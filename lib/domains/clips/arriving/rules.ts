/** How long the bytes of a film wait for another try after trouble on our side. */
export const RETRY_DAYS = 7;
/** After so many hours without a new byte a half-sent film is put away. */
export const HALF_SENT_HOURS = 48;
/** Bytes that belong to no upload are left alone for so long: their row may be on its way. */
export const STRAY_HOURS = 1;

/** Said when it was not the file's fault. */
export const OUR_SIDE = "The video could not be opened, and the reason lies on our side.";
export const NO_ROOM = "There was no room left to work on the video; an admin has to make some.";

/** The queue knows the looking at an upload by this. */
export const checkKey = (uploadId: string) => `check ${uploadId}`;

/** Beginning of an earlier hour. */
export const hoursBefore = (instant: Date, hours: number) => new Date(instant.getTime() - hours * 3_600_000);
