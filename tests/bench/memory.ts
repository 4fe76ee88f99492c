/** Loaded before a server: tells what it weighs, once what it no longer needs is cleared away. */
process.on('message', () => {
    (globalThis as { gc?: () => void }).gc?.();
    const { rss, heapUsed } = process.memoryUsage();
    process.send?.({ rss, heap: heapUsed });
});
