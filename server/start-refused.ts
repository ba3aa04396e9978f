/** Why the service does not start, in one sentence for whoever started it. */
export class StartRefused extends Error {}
