/** A reader that closes the pipe (`| head`) is no failure: stop writing and exit without a message. */
export function leaveWithReader(): void {
  for (const stream of [process.stdout, process.stderr]) {
    stream.on("error", (error: NodeJS.ErrnoException) => {
      if (error.code === "EPIPE") process.exit();
      throw error;
    });
  }
}
