// A text in the part of an address behind #, deflated (RFC 1951) and in base64url (RFC 4648): `car=...`.

const KEY = 'car=';

async function through(bytes: Uint8Array<ArrayBuffer>, stream: CompressionStream | DecompressionStream) {
  const piped = new Blob([bytes]).stream().pipeThrough(stream);
  return new Uint8Array(await new Response(piped).arrayBuffer());
}

export async function toAddress(text: string): Promise<string> {
  const bytes = await through(new TextEncoder().encode(text), new CompressionStream('deflate-raw'));
  const letters = Array.from(bytes, (byte) => String.fromCharCode(byte)).join('');
  return KEY + btoa(letters).replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '');
}

/** The text of an address; null if there is none in it, or what is there is cut off. */
export async function fromAddress(hash: string): Promise<string | null> {
  if (!hash.startsWith(KEY)) return null;
  try {
    const letters = atob(hash.slice(KEY.length).replaceAll('-', '+').replaceAll('_', '/'));
    const bytes = Uint8Array.from(letters, (letter) => letter.charCodeAt(0));
    return new TextDecoder().decode(await through(bytes, new DecompressionStream('deflate-raw')));
  } catch {
    return null;
  }
}
