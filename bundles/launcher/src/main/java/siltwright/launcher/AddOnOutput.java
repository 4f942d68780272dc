package siltwright.launcher;

import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintStream;

/** A standard stream that keeps what add-ons print out of the program's results. */
final class AddOnOutput extends OutputStream {
  private final PrintStream stream;

  private AddOnOutput(PrintStream stream) {
    this.stream = stream;
  }

  /** Returns a stream that passes on what the program itself prints. */
  static PrintStream before(PrintStream stream) {
    return new PrintStream(new AddOnOutput(stream), true);
  }

  @Override
  public void write(int b) throws IOException {
    write(new byte[] {(byte) b}, 0, 1);
  }

  @Override
  public void write(byte[] bytes, int from, int length) {
    AddOn addOn = AddOn.current();
    if (addOn == null) {
      stream.write(bytes, from, length);
    } else {
      addOn.printed(bytes, from, length);
    }
  }

  @Override
  public void flush() throws IOException {
    stream.flush();
    if (stream.checkError()) {
      throw new IOException("the stream was closed");
    }
  }
}
