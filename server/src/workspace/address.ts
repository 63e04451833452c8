/** An address in one spelling, however a client encodes it; only to tell whether two are the same file. */
export function sameFile(uri: string): string {
  return decoded(uri).replace(/^file:\/\/\/[A-Z](?=:)/, (drive) => drive.toLowerCase());
}

function decoded(uri: string): string {
  try {
    return decodeURIComponent(uri);
  } catch {
    return uri;
  }
}

/** The last part of an address, as a reader knows it. */
export function fileName(uri: string): string {
  return decoded(uri.slice(uri.lastIndexOf('/') + 1));
}

/** The address of what has a name in a folder. */
export function addressIn(folder: string, name: string): string {
  const encoded = encodeURIComponent(name).replaceAll(/[!'()*]/g, (mark) => `%${mark.charCodeAt(0).toString(16)}`);
  return `${folder.replace(/\/$/, '')}/${encoded.replaceAll(/%[0-9a-f]{2}/g, (code) => code.toUpperCase())}`;
}
