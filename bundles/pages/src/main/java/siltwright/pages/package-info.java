/** The project's papers, written in Markdown, as web pages to read and print without a network. */
package siltwright.pages;
