package siltwright.launcher;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.DirectoryStream;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.BasicFileAttributes;
import java.nio.file.attribute.PosixFilePermissions;

/**
 * The framework's working folder, one of its own for each process, so that two runs at once cannot
 * meet and no run sees what another one left.
 *
 * <p>The folder's name carries the process's number, and the process holds a lock on a file in it.
 * What a process that was killed left behind is removed by a later one, when the number belongs to
 * no process of this host <em>and</em> the lock is free: the number alone would deceive where
 * containers share a temporary folder.
 */
public final class Storage implements AutoCloseable {

  private static final String PREFIX = "siltwright-";
  private static final String LOCK = "lock";
  private static final String OWNER = "rwx------";

  /** The places of the Linux file hierarchy. */
  private static final Path USUAL_PLACE = Path.of("/tmp");

  private static final Path IN_MEMORY = Path.of("/dev/shm");

  private final Path folder;
  private final FileChannel lock;

  private Storage(Path folder, FileChannel lock) {
    this.folder = folder;
    this.lock = lock;
  }

  /**
   * Returns where to make the folder: in memory, where a system that has its usual place for
   * temporary files also has one there, since the framework makes some hundred small files at each
   * start; else the JVM's place for temporary files.
   */
  static Path place() {
    Path temporary = Path.of(System.getProperty("java.io.tmpdir"));
    boolean usual = temporary.equals(USUAL_PLACE);
    return usual && Files.isDirectory(IN_MEMORY) && Files.isWritable(IN_MEMORY)
        ? IN_MEMORY
        : temporary;
  }

  /**
   * Makes a new folder, readable by its owner only, and removes those of processes that died.
   *
   * @param parent the folder to make it in
   * @return the new folder, locked
   * @throws LaunchException if it cannot be made
   */
  public static Storage create(Path parent) throws LaunchException {
    try {
      removeLeftovers(parent);
      Path folder = createFolder(parent);
      FileChannel lock =
          FileChannel.open(
              folder.resolve(LOCK), StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
      lock.lock();
      return new Storage(folder, lock);
    } catch (IOException e) {
      throw new LaunchException("no working folder can be made in " + parent + ": " + e, e);
    }
  }

  /**
   * Creation fails where the name exists, whoever made it, so the name need not be a secret; a
   * random one would cost the start up to 0.1 s of cryptography.
   */
  private static Path createFolder(Path parent) throws IOException {
    Path folder = parent.resolve(PREFIX + ProcessHandle.current().pid() + "-" + System.nanoTime());
    if (parent.getFileSystem().supportedFileAttributeViews().contains("posix")) {
      return Files.createDirectory(
          folder, PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString(OWNER)));
    }
    return Files.createDirectory(folder);
  }

  /** Returns the folder for the framework; it need not exist yet. */
  public Path framework() {
    return folder.resolve("framework");
  }

  /** Removes the folder as far as that is possible. */
  @Override
  public void close() {
    try {
      lock.close();
    } catch (IOException e) {
      // the folder goes anyway
    }
    remove(folder);
  }

  private static void removeLeftovers(Path parent) throws IOException {
    try (DirectoryStream<Path> entries = Files.newDirectoryStream(parent)) {
      for (Path entry : entries) {
        String name = entry.getFileName().toString();
        if (name.startsWith(PREFIX)
            && Files.isDirectory(entry, LinkOption.NOFOLLOW_LINKS)
            && isLeftover(entry, name.substring(PREFIX.length()))) {
          remove(entry);
        }
      }
    }
  }

  private static boolean isLeftover(Path folder, String suffix) {
    try {
      long pid = Long.parseLong(suffix.substring(0, Math.max(0, suffix.indexOf('-'))));
      if (ProcessHandle.of(pid).isPresent()) {
        return false;
      }
    } catch (NumberFormatException e) {
      return false; // somebody else's folder
    }
    // opening fails in another user's folder, which is then none of ours to remove
    try (FileChannel channel =
            FileChannel.open(
                folder.resolve(LOCK), StandardOpenOption.WRITE, LinkOption.NOFOLLOW_LINKS);
        FileLock free = channel.tryLock()) {
      return free != null;
    } catch (IOException | OverlappingFileLockException e) {
      return false;
    }
  }

  private static void remove(Path folder) {
    try {
      Files.walkFileTree(
          folder,
          new SimpleFileVisitor<>() {
            @Override
            public FileVisitResult visitFile(Path file, BasicFileAttributes attributes)
                throws IOException {
              Files.delete(file);
              return FileVisitResult.CONTINUE;
            }

            @Override
            public FileVisitResult postVisitDirectory(Path visited, IOException e)
                throws IOException {
              Files.delete(visited);
              return FileVisitResult.CONTINUE;
            }
          });
    } catch (IOException e) {
      // left for a later run: the lock is free by then
    }
  }
}
