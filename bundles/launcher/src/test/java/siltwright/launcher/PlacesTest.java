package siltwright.launcher;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class PlacesTest {
  @TempDir Path top;
  private Path folder;
  private Path file;

  @BeforeEach
  void make() throws IOException {
    folder = Files.createDirectories(top.resolve("a/b"));
    file = Files.writeString(folder.resolve("x.jar"), "");
    mode(top.resolve("a"), "rwxr-xr-x");
    mode(folder, "rwxr-xr-x");
    mode(file, "rw-r--r--");
  }

  private static void mode(Path path, String permissions) throws IOException {
    Files.setPosixFilePermissions(path, PosixFilePermissions.fromString(permissions));
  }

  @Test
  void ownersAloneAreSafe() throws IOException {
    assertNull(Places.fault(file));
    assertNull(Places.fault(folder));
  }

  @Test
  void fileFolderAndEachFolderAboveCount() throws IOException {
    for (Path path : new Path[] {file, folder, top.resolve("a")}) {
      boolean isFile = path.equals(file);
      mode(path, isFile ? "rw-rw-r--" : "rwxrwxr-x");
      String fault = Places.fault(file);
      assertEquals(
          "others can write to " + path.toRealPath() + " (chmod go-w makes it safe)", fault);
      mode(path, isFile ? "rw-r--r--" : "rwxr-xr-x");
    }
  }

  /** Sticky, as the temporary folder is: safe on the way, no place for the file itself. */
  @Test
  void foldersWhoseEntriesStayTheirOwnersAreSafeOnTheWayOnly() throws IOException {
    Files.setAttribute(top.resolve("a"), "unix:mode", 01777);
    assertNull(Places.fault(file));
    Files.setAttribute(folder, "unix:mode", 01777);
    assertTrue(Places.fault(file).contains("others can write to"));
  }

  @Test
  void aLinkIsAsSafeAsWhatItLeadsToAndWhereItLies() throws IOException {
    Path beside = Files.createDirectory(top.resolve("links"));
    mode(beside, "rwxr-xr-x");
    Path link = Files.createSymbolicLink(beside.resolve("link.jar"), file);
    assertNull(Places.fault(link));
    mode(beside, "rwxrwxrwx");
    assertTrue(Places.fault(link).contains(beside.toRealPath().toString()));
    mode(beside, "rwxr-xr-x");
    mode(folder, "rwxrwxrwx");
    assertTrue(Places.fault(link).contains(folder.toRealPath().toString()));
  }
}
