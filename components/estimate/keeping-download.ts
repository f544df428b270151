/** Offers a blob as a file. */
export function downloadBlob(blob: Blob, name: string, document: Document): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(blob);
  link.download = name.replace(/[^\w.-]+/g, '-');
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href));
}
