import sharp from 'sharp';
const [out, ...files] = process.argv.slice(2);
const n = files.length; const m = await sharp(files[0]).metadata();
await sharp({ create: { width: 2 * m.width + 10, height: Math.ceil(n / 2) * (m.height + 10), channels: 3, background: '#fff' } }).composite(files.map((f, i) => ({ input: f, left: (i % 2) * (m.width + 10), top: Math.floor(i / 2) * (m.height + 10) }))).png().toFile(out);
