/** A reader that has seen enough (`| head`) is no failure: stop writing and leave quietly. */
export function leaveWithReader(): void {
  for (const stream of [process.stdout, process.stderr]) {
    stream.on("error", (error: NodeJS.ErrnoException) => {
      if (error.code === "EPIPE") process.exit();
      throw error;
    });
  }
}
