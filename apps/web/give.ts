/** Hands files to the fitter as downloads. Nothing leaves the device by itself. */
export function giveFiles(files: readonly { name: string; bytes: Uint8Array | string }[]): void {
  for (const { name, bytes } of files) {
    const url = URL.createObjectURL(new Blob([bytes as BlobPart]));
    const link = document.createElement("a");
    link.href = url;
    link.download = name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(url), 60_000);
  }
}
