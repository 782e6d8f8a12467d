/** Hands a file to the browser or the window to be saved, where it saves such files or asks. */
export function saveFile(name: string, content: BlobPart, media: string): void {
  const address = URL.createObjectURL(new Blob([content], { type: media }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  // The saving begins after this task; the address must last until then.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
