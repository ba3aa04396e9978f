/** A picture that cannot be used; the message is one plain sentence for the person who sent it. */
export class UnreadablePhoto extends Error {}

export const damaged = "This picture is damaged or was cut off on its way; send it again."
export const tooManyPixels = "This picture has more than 50 million pixels; send a smaller copy."
export const tookTooLong = "This picture took too long to read; send a smaller copy."
export const tooMuchMemory = "This picture needs more memory than there is here; send a smaller copy."
/** One sentence for both, because a broken file and an unknown coding look alike from outside. */
export const unreadableHeic =
  "This HEIC picture is damaged, or made in a way that cannot be read here; send it again, or as a JPEG."
