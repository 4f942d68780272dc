package siltwright.wide.spark;

import jakarta.servlet.Filter;
import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletRequest;
import jakarta.servlet.ServletResponse;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;

/** Refuses every page: a master and its workers have some that cannot be turned off. */
public final class NoPages implements Filter {
  @Override
  public void doFilter(ServletRequest request, ServletResponse response, FilterChain chain)
      throws IOException {
    ((HttpServletResponse) response).sendError(HttpServletResponse.SC_FORBIDDEN);
  }
}
