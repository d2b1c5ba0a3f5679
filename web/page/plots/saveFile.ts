/** Hands a file to the browser, to be saved under a name. */
export function saveFile(name: string, content: string, type: string): void {
  const url = URL.createObjectURL(new Blob([content], { type }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  // Revoked at once, some browsers save nothing.
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}

/** A name that every file system takes. */
export function fileName(words: string, ending: string): string {
  return `${words.replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-|-$/g, '')}.${ending}`;
}
