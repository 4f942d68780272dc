package siltwright.store;

import java.io.IOException;
import java.io.InputStream;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.BasicFileAttributes;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Objects;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteDataSource;
import org.sqlite.SQLiteErrorCode;
import siltwright.model.InputException;
import siltwright.model.Problem;

/** A store in one file. */
final class SqliteFile extends Database {
  /** "Silt", so that other tools can tell what the file is. */
  private static final int APPLICATION_ID = 0x53696C74;

  private static final int WAIT_MS = 5000;
  private static final int CACHE_KIB = 65_536;

  private final Path file;
  private Object key;

  private SqliteFile(Path file) {
    this.file = file;
  }

  static SqliteFile of(String where) {
    try {
      Path path = Path.of(where);
      // The driver takes what is behind a question mark for settings.
      if (where.isBlank() || where.contains("?") || path.getFileName() == null) {
        throw new InvalidPathException(where, "no name of a file");
      }
      return new SqliteFile(path);
    } catch (InvalidPathException e) {
      throw new InputException(
          new Problem("option", "--store", where, "a file, or " + SERVER + "//HOST/DATABASE"));
    }
  }

  @Override
  String name() {
    return file.toString();
  }

  @Override
  boolean exists() {
    return Files.exists(file);
  }

  @Override
  Connection writer() throws SQLException {
    Path folder = file.toAbsolutePath().getParent();
    if (!Files.isDirectory(folder)) {
      throw new InputException(problem("no folder " + folder, "a folder that is there"));
    }
    if (Files.isDirectory(file)) {
      throw new InputException(problem("a folder", "a file"));
    }
    if (exists() && !Files.isWritable(file)) {
      throw new InputException(problem("a file that cannot be written", "one that can"));
    }
    SQLiteConfig config = config();
    config.setSynchronous(SQLiteConfig.SynchronousMode.FULL);
    config.setApplicationId(APPLICATION_ID);
    checkKind();
    Connection c = connect(config);
    key = fileKey();
    return c;
  }

  // The driver's own transactions begin the next one with the commit, and so hold its lock.

  @Override
  void begin(Connection c) throws SQLException {
    execute(c, "BEGIN IMMEDIATE");
  }

  @Override
  void commit(Connection c) throws SQLException {
    execute(c, "COMMIT");
  }

  @Override
  void rollBack(Connection c) throws SQLException {
    execute(c, "ROLLBACK");
  }

  private static void execute(Connection c, String statement) throws SQLException {
    try (Statement s = c.createStatement()) {
      s.execute(statement);
    }
  }

  @Override
  Connection reader() throws SQLException {
    checkKind();
    SQLiteConfig config = config();
    config.setReadOnly(true);
    Connection c = connect(config);
    try {
      c.setAutoCommit(false);
      return c;
    } catch (SQLException e) {
      c.close();
      throw e;
    }
  }

  private static SQLiteConfig config() {
    SQLiteConfig config = new SQLiteConfig();
    config.enforceForeignKeys(true);
    config.setBusyTimeout(WAIT_MS);
    config.setCacheSize(-CACHE_KIB);
    return config;
  }

  private Connection connect(SQLiteConfig config) throws SQLException {
    SQLiteDataSource source = new SQLiteDataSource(config);
    source.setUrl("jdbc:sqlite:" + file.toAbsolutePath());
    return source.getConnection();
  }

  /** Returns whether a name is that of a file with a database in it. */
  static boolean isDatabase(String name) {
    try {
      Path file = Path.of(name);
      return Files.isRegularFile(file) && beginsAsOne(file);
    } catch (IOException | InvalidPathException e) {
      return false; // told by who reads it
    }
  }

  private static boolean beginsAsOne(Path file) throws IOException {
    byte[] head = new byte[16];
    try (InputStream in = Files.newInputStream(file)) {
      in.readNBytes(head, 0, head.length);
    }
    return new String(head, StandardCharsets.ISO_8859_1).startsWith("SQLite format 3");
  }

  /** Looks at the file before the database does, which would write to some that are not its own. */
  private void checkKind() {
    try {
      if (!Files.isRegularFile(file) || Files.size(file) == 0) {
        return;
      }
      if (!beginsAsOne(file)) {
        throw new InputException(notAStore());
      }
    } catch (IOException e) {
      throw new InputException(problem("a file that cannot be read", "one that can"));
    }
  }

  private Problem notAStore() {
    return problem("a file of another kind", "a store of this program, or a name not in use");
  }

  private Object fileKey() {
    try {
      return Files.readAttributes(file, BasicFileAttributes.class).fileKey();
    } catch (IOException e) {
      return "gone";
    }
  }

  @Override
  String identity() {
    return "INTEGER PRIMARY KEY";
  }

  @Override
  int tables(Connection c) throws SQLException {
    return number(c, "SELECT count(*) FROM sqlite_master WHERE type = 'table'");
  }

  @Override
  boolean hasTable(Connection c, String table) throws SQLException {
    return number(
            c, "SELECT count(*) FROM sqlite_master WHERE type = 'table' AND name = '" + table + "'")
        > 0;
  }

  @Override
  void lockToPrepare(Connection c) {
    // Its transactions begin with the lock.
  }

  @Override
  String backUp(int version) throws SQLException {
    Path copy = file.resolveSibling(file.getFileName() + ".v" + version);
    for (int n = 2; Files.exists(copy); n++) {
      copy = file.resolveSibling(file.getFileName() + ".v" + version + "-" + n);
    }
    try (Connection c = reader()) {
      c.setAutoCommit(true);
      try (PreparedStatement s = c.prepareStatement("VACUUM INTO ?")) {
        s.setString(1, copy.toAbsolutePath().toString());
        s.execute();
      }
    }
    try (FileChannel channel = FileChannel.open(copy, StandardOpenOption.WRITE)) {
      channel.force(true);
    } catch (IOException e) {
      throw new InputException(problem("no way to write " + copy, "room for a copy beside it"));
    }
    return copy.toString();
  }

  @Override
  String dropIndexIfEmpty(Connection c, String table) throws SQLException {
    if (number(c, "SELECT EXISTS (SELECT 1 FROM " + table + ")") != 0) {
      return null;
    }
    String index = table + "_live";
    String making;
    try (Statement s = c.createStatement();
        ResultSet r =
            s.executeQuery("SELECT sql FROM sqlite_master WHERE name = '" + index + "'")) {
      r.next();
      making = r.getString(1);
    }
    execute(c, "DROP INDEX " + index);
    return making;
  }

  @Override
  void goOnNumbering(Connection c, String table) {
    // It goes on from the highest by itself.
  }

  @Override
  void checkBeforeCommit() {
    if (!Objects.equals(key, fileKey())) {
      throw new InputException(
          problem("the file deleted or replaced while in use", "it left alone; nothing was saved"));
    }
  }

  @Override
  Problem explained(SQLException e) {
    SQLiteErrorCode code = SQLiteErrorCode.getErrorCode(e.getErrorCode() & 0xff);
    return switch (code) {
      case SQLITE_FULL -> problem("a full disk", "room for what is written; nothing was saved");
      case SQLITE_READONLY, SQLITE_PERM ->
          problem("a file or folder that cannot be written", "one that can");
      case SQLITE_BUSY, SQLITE_LOCKED ->
          problem("another program writing to it", "it to be done within 5 s; try again");
      case SQLITE_NOTADB -> notAStore();
      case SQLITE_CORRUPT -> problem("a damaged file", "a sound one; take the latest copy");
      case SQLITE_CANTOPEN -> problem("a file that cannot be opened", "one that can");
      case SQLITE_IOERR ->
          problem("a disk that fails or is full", "a sound one with room; nothing was saved");
      default -> null;
    };
  }
}
