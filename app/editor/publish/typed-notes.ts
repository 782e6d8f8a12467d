/** Notes typed for drafts that have not been published with them yet, by draft, while the window is open. */
export const typedNotes = new Map<string, string>();
