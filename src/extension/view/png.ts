/** The drawing as an image of points: black on white, whatever the editor looks like. */

/** Points for one unit of the sheet. */
const FINE = 2;

export async function pngOf(svg: string): Promise<Uint8Array> {
    const address = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
    try {
        const image = new Image();
        image.src = address;
        await image.decode();
        const canvas = document.createElement('canvas');
        [canvas.width, canvas.height] = [image.naturalWidth * FINE, image.naturalHeight * FINE];
        const context = canvas.getContext('2d')!;
        context.fillStyle = '#fff';
        context.fillRect(0, 0, canvas.width, canvas.height);
        context.drawImage(image, 0, 0, canvas.width, canvas.height);
        const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/png'));
        if (!blob) throw new Error('too large');
        return new Uint8Array(await blob.arrayBuffer());
    } finally {
        URL.revokeObjectURL(address);
    }
}
