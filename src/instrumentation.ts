/**
 * What happens once, when the program starts: the record is opened, and every request learns where it came from.
 */
export async function register(): Promise<void> {
  if (process.env['NEXT_RUNTIME'] !== 'nodejs') return;
  const { startServer } = await import('./app/server/start-server.ts');
  await startServer();
}
