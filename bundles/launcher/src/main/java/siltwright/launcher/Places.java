package siltwright.launcher;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;

/**
 * Who else can write to a place. What others can write to, they can have run here.
 *
 * <p>A file is as safe as the least safe of the folders on its way: whoever can write to one of
 * them can put another in its place. A folder whose entries only their owners may rename, as {@code
 * /tmp}, is safe on the way but no place for the file itself.
 */
final class Places {
  private static final int OTHERS_WRITE = 0022;
  private static final int STICKY = 01000;

  private Places() {}

  /**
   * Returns what is unsafe about a file or folder.
   *
   * @return a clause such as "others can write to /srv/shared"; null if nothing is, or if the file
   *     system knows no owners and permissions of this kind
   */
  static String fault(Path place) throws IOException {
    if (!Files.getFileStore(place).supportsFileAttributeView("posix")) {
      return null;
    }
    Path real = place.toRealPath();
    String fault = faultOfReal(real);
    Path folder = place.toAbsolutePath().normalize().getParent();
    if (fault == null && folder != null && !folder.toRealPath().equals(real.getParent())) {
      return faultOfReal(folder.toRealPath()); // of a link, who can write beside it can change it
    }
    return fault;
  }

  private static String faultOfReal(Path real) throws IOException {
    String fault = fault(real, false);
    // the folder that holds it, then those on the way
    for (Path on = real.getParent(); fault == null && on != null; on = on.getParent()) {
      boolean holds = on.equals(real.getParent()) && !Files.isDirectory(real);
      fault = fault(on, !holds);
    }
    return fault;
  }

  private static String fault(Path path, boolean onTheWay) throws IOException {
    int mode = (Integer) Files.getAttribute(path, "unix:mode", LinkOption.NOFOLLOW_LINKS);
    int owner = (Integer) Files.getAttribute(path, "unix:uid", LinkOption.NOFOLLOW_LINKS);
    if ((mode & OTHERS_WRITE) != 0 && !(onTheWay && (mode & STICKY) != 0)) {
      return "others can write to " + path + " (chmod go-w makes it safe)";
    }
    if (owner != 0 && owner != user()) {
      return path + " belongs to another user";
    }
    return null;
  }

  /** Returns the number of the user who runs this: the owner of what the process itself makes. */
  private static int user() throws IOException {
    Path self = Path.of("/proc/self");
    Path own = Files.exists(self) ? self : Path.of(System.getProperty("user.home"));
    return (Integer) Files.getAttribute(own, "unix:uid");
  }
}
